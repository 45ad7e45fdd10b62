// Put into the page before its own scripts: times the worker's answers, the page's drawing, and the page's stalls.
const NativeWorker = Worker;
const asked = (window.asked = []); // the moments of the requests
const replies = (window.replies = []); // milliseconds that the worker says it took
window.Worker = class extends NativeWorker {
  constructor(...words) {
    super(...words);
    this.addEventListener("message", ({ data }) => {
      const message = JSON.parse(data);
      if (message.kind === "reply") replies.push(message.ms);
    });
  }
  postMessage(text) {
    if (JSON.parse(text).kind === "ask") asked.push(performance.now());
    super.postMessage(text);
  }
};

// The longest time for which the page could do nothing else, and the longest task as the browser counts them.
window.stall = { gap: 0, task: 0 };
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) window.stall.task = Math.max(window.stall.task, entry.duration);
}).observe({ type: "longtask", buffered: true });
window.watchStalls = () => {
  const channel = new MessageChannel();
  let last = performance.now();
  window.stall = { gap: 0, task: 0 };
  channel.port1.onmessage = () => {
    const now = performance.now();
    window.stall.gap = Math.max(window.stall.gap, now - last);
    last = now;
    setTimeout(() => channel.port2.postMessage(0));
  };
  channel.port2.postMessage(0);
};

// Changes one number again and again, as typing does. A round ends when the new answer is drawn and laid out.
window.recompute = async (sheet, question, values, count) => {
  const section = document.getElementById(sheet);
  const box = section.querySelector(`[data-question="${question}"] input`);
  const times = { worker: [], screen: [] };
  for (let i = 0; i < count; i += 1) {
    performance.clearMarks("sheet-answered");
    const drawn = new Promise((done) => {
      const watch = new MutationObserver(() => {
        if (!performance.getEntriesByName("sheet-answered").length) return;
        watch.disconnect();
        section.getBoundingClientRect();
        done(performance.now());
      });
      watch.observe(section, { subtree: true, childList: true, attributes: true });
    });
    box.value = values[i % values.length];
    box.dispatchEvent(new InputEvent("input", { bubbles: true }));
    const at = await drawn;
    times.screen.push(at - asked.at(-1));
    times.worker.push(replies.at(-1));
    await new Promise((done) => setTimeout(done, 20));
  }
  return times;
};
