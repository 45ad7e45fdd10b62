// Looks at each chart that is drawn: letters as they are seen, and what stands over what.
(least) => {
  const found = [];
  const meets = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  for (const chart of document.querySelectorAll("svg.chart")) {
    const whole = chart.getBoundingClientRect();
    if (!whole.width) continue;
    const scale = whole.width / chart.viewBox.baseVal.width;
    const name = chart.querySelector("title").textContent;
    const texts = [...chart.querySelectorAll("text")].filter((one) => one.textContent.trim() && getComputedStyle(one).display !== "none");
    const boxes = texts.map((one) => one.getBoundingClientRect());
    // A box of letters has room above and below them: what is inked is less high.
    const inked = boxes.map((box) => ({ left: box.left, right: box.right, top: box.top + box.height * 0.2, bottom: box.bottom - box.height * 0.2 }));
    texts.forEach((one, at) => {
      const seen = parseFloat(getComputedStyle(one).fontSize) * scale;
      if (seen < least) found.push(`${name}: “${one.textContent}” is ${seen.toFixed(1)} px`);
      if (boxes[at].left < whole.left - 3 || boxes[at].right > whole.right + 3) found.push(`${name}: “${one.textContent}” leaves the chart`);
      for (let other = 0; other < at; other += 1) {
        if (meets(inked[at], inked[other])) found.push(`${name}: “${one.textContent}” over “${texts[other].textContent}”`);
      }
      for (const line of chart.querySelectorAll("path.line, line.whisker, line.mark")) {
        if (line.closest(".legend")) continue;
        const to = line.getScreenCTM();
        const length = line.getTotalLength();
        const half = line.matches(".line") ? 1 : 0;
        for (let along = 0; along <= length; along += 2) {
          const point = line.getPointAtLength(along).matrixTransform(to);
          const dot = { left: point.x - half, right: point.x + half, top: point.y - half, bottom: point.y + half };
          if (meets(inked[at], dot)) {
            found.push(`${name}: “${one.textContent}” over a ${line.getAttribute("class")}`);
            break;
          }
        }
      }
      for (const point of chart.querySelectorAll("circle")) {
        if (point.closest(".legend")) continue;
        if (meets(inked[at], point.getBoundingClientRect())) found.push(`${name}: “${one.textContent}” over a point`);
      }
    });
  }
  return found;
};
