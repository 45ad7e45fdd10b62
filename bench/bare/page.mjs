// What any page has to wait for that runs the published files in a worker: no calculators, no theme.
const worker = new Worker("worker.mjs", { type: "module" });
worker.addEventListener("message", ({ data }) => {
  performance.mark(data);
  document.getElementById(data).textContent = `${Math.round(performance.now())} ms`;
});
