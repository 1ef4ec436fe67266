"use strict";
(() => {
  const panel = document.getElementById("progress");
  const plan = panel.dataset.plan;
  const say = document.getElementById("say");
  const told = { peak: document.getElementById("peak"), bound: document.getElementById("bound"), seconds: document.getElementById("seconds") };
  const finish = document.getElementById("finish");
  const cancel = document.getElementById("cancel");
  const seen = [];
  const events = new EventSource(`/v1/plans/${plan}/events`);
  const percent = (share) => (share === null ? "–" : `${(100 * share).toFixed(1)} %`);
  const words = {
    queued: "The plan waits for its turn.",
    running: "The solve has begun.",
    requeued: "The solve was interrupted and begins again.",
    finishing: "Asked to finish with the best plan so far.",
    cancelling: "Asked to cancel.",
  };

  function draw() {
    const last = Math.max(...seen.map((one) => one.seconds), 1);
    const shares = seen.flatMap((one) => [one.peak, one.bound]).filter((one) => one);
    const low = Math.min(...shares) - 0.02;
    const high = Math.max(...shares) + 0.02;
    const points = (name) =>
      seen
        .filter((one) => one[name])
        .map((one) => `${((600 * one.seconds) / last).toFixed(1)},${(110 - (100 * (one[name] - low)) / (high - low)).toFixed(1)}`)
        .join(" ");
    document.getElementById("peak-line").setAttribute("points", points("peak"));
    document.getElementById("bound-line").setAttribute("points", points("bound"));
  }

  function progress(event) {
    const now = JSON.parse(event.data).progress;
    seen.push(now);
    told.peak.textContent = percent(now.peak);
    told.bound.textContent = now.bound ? percent(now.bound) : "–";
    told.seconds.textContent = `${now.seconds.toFixed(1)} s`;
    say.textContent = `The stage “${now.stage}” is done.`;
    finish.disabled = now.peak === null;
    draw();
  }

  async function ask(wish) {
    finish.disabled = cancel.disabled = true;
    const answer = await fetch(`/v1/plans/${plan}/${wish}`, { method: "POST", headers: { Accept: "application/json" } });
    if (!answer.ok && answer.status !== 409) {
      say.textContent = `That was refused (${answer.status}). Load this page again.`;
    }
  }

  function over() {
    events.close();
    location.reload();
  }

  events.addEventListener("progress", progress);
  for (const name of Object.keys(words)) {
    events.addEventListener(name, () => {
      say.textContent = words[name];
      if (name === "running") finish.disabled = false;
    });
  }
  for (const name of ["done", "failed", "cancelled"]) events.addEventListener(name, over);
  events.addEventListener("error", () => {
    // The plan is gone, or too many follow: a page that came back at once would ask without end.
    if (events.readyState === EventSource.CLOSED) setTimeout(over, 5000);
  });
  finish.addEventListener("click", () => ask("finish"));
  cancel.addEventListener("click", () => ask("cancel"));
})();
