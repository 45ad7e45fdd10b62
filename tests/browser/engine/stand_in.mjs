// Stands in for Python where a test needs it slow, stuck or dead; speaks the same protocol as the worker.
// What it does follows from the barley weight typed. Its answer is: what was typed, how many requests came,
// how many were under way at most.

const calculators = "%%CALCULATORS%%"; // the mark that goes with every reply
let busy = 0;
let most = 0;
let asked = 0;

const post = (message) => self.postMessage(JSON.stringify(message));

const answered = (text) => ({
  state: "answered",
  missing: [],
  errors: [],
  status: "",
  places: {
    heading: '<h3 class="standing">Your numbers</h3>',
    answers: `<dl class="answers"><div class="answer lead"><dt>Weight</dt><dd class="figure">${text}</dd></div></dl>`,
  },
});

const wrong = {
  state: "wrong",
  missing: [],
  errors: [{ question: "barley_kg", text: "Barley weight: no." }],
  status: "",
  places: {},
};

self.onmessage = (event) => {
  const { id, kind, request } = JSON.parse(event.data);
  if (kind !== "ask") return;
  const typed = request.questions.barley_kg;
  asked += 1;
  busy += 1;
  most = Math.max(most, busy);
  if (typed === "hang") return;
  if (typed === "die") throw new Error("stand-in died");
  const answer = () => {
    busy -= 1;
    if (typed === "fault") post({ id, kind: "failed", text: "stand-in fault" });
    else post({ id, kind: "reply", calculators, reply: typed === "bad" ? wrong : answered(`${typed} ${asked} ${most}`) });
  };
  if (typed === "held") return void (self.answer = answer); // until a test lets it
  if (typed === "slow") setTimeout(() => post({ kind: "progress", step: "Still at it", done: 40 }), 600);
  setTimeout(answer, typed === "slow" ? 1800 : 0);
};

post({ kind: "ready", packages: [], ms: { all: 1 } });
