"use strict";
// Runs the moving figure of an exercise. Nothing moves until it is pressed, and nobody who
// asked for less motion gets more than one still position after another.
(() => {
  const GRAIN = 4, SVG = "http://www.w3.org/2000/svg";
  const INK = "#1d2224", NEAR = "#5b6367", FAR = "#dedbd2", TRUNK = "#868d90", PAPER = "#fbf9f4";
  const KIT = { kit: "#5f9498", kit_top: "#a9c8c8", mat: "#cfdcd8", wall: "#d6dedb" };
  const LOAD = "#0c5a60";
  const LESS = window.matchMedia("(prefers-reduced-motion: reduce)");
  const STILL_S = 1.2; // how long a still position stays, when motion is not wanted
  // from, to, thickness; sided names get their side
  const LIMBS = [
    ["shoulder", "elbow", 12], ["elbow", "wrist", 9], ["wrist", "grip", 8],
    ["hip", "knee", 17], ["knee", "ankle", 12], ["ankle", "heel", 7], ["heel", "toe_tip", 6],
  ];

  const made = (name, attributes, parent) => {
    const node = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
    parent.append(node);
    return node;
  };

  class Figure {
    constructor(svg, data) {
      this.data = data;
      this.index = new Map(data.points.map((name, i) => [name, i]));
      svg.setAttribute("viewBox", data.box.join(" "));
      svg.replaceChildren();
      this.kit = made("g", {}, svg);
      this.body = made("g", { "stroke-linecap": "round", "stroke-linejoin": "round" }, svg);
      this.stretch = null;
    }

    at(frame, part) {
      const a = this.data.frames[frame], b = this.data.frames[Math.min(frame + 1, this.data.frames.length - 1)];
      return (name) => {
        const i = 3 * this.index.get(name);
        return [0, 1, 2].map((k) => (a[i + k] + part * (b[i + k] - a[i + k])) / GRAIN);
      };
    }

    draw(stretch, frame, part) {
      if (stretch !== this.stretch) {
        this.stretch = stretch;
        this.kit.replaceChildren();
        for (const [d, ink] of stretch.kit) made("path", { d, fill: KIT[ink], stroke: LOAD, "stroke-width": 1.2 }, this.kit);
      }
      const at = this.at(frame, part), shapes = [];
      const line = (names, width, fill, edge, near) => shapes.push({ names, width, fill, edge, near });
      const depth = (side) => at(`shoulder_${side}`)[2] + at(`hip_${side}`)[2];
      const farSide = depth("left") < depth("right") ? "left" : "right";
      for (const side of ["left", "right"]) {
        const far = side === farSide;
        for (const [from, to, width] of LIMBS) {
          const names = [`${from}_${side}`, `${to}_${side}`];
          const near = (at(names[0])[2] + at(names[1])[2]) / 2;
          line(names, width, far ? FAR : NEAR, far ? INK : PAPER, near);
        }
      }
      const middle = (at("hips")[2] + at("breastbone")[2]) / 2;
      line(["shoulder_left", "shoulder_right"], 13, TRUNK, PAPER, middle);
      line(["hips", "navel", "breastbone"], 27, TRUNK, PAPER, middle + 0.1);
      line(["hip_left", "hip_right"], 20, INK, PAPER, middle + 0.2);
      shapes.sort((a, b) => a.near - b.near);
      this.body.replaceChildren();
      for (const [name, x, y] of stretch.band) {
        const [gx, gy] = at(name);
        made("path", { d: `M${x} ${y}L${gx} ${gy}`, fill: "none", stroke: LOAD, "stroke-width": 3.5 }, this.body);
      }
      for (const { names, width, fill, edge } of shapes) {
        const d = "M" + names.map((name) => at(name).slice(0, 2).map((v) => v.toFixed(1)).join(" ")).join("L");
        made("path", { d, fill: "none", stroke: edge, "stroke-width": width + 3 }, this.body);
        made("path", { d, fill: "none", stroke: fill, "stroke-width": width }, this.body);
      }
      const crown = at("crown"), chest = at("breastbone"), head = [0, 1].map((k) => crown[k] + 0.28 * (chest[k] - crown[k]));
      made("circle", { cx: head[0], cy: head[1], r: 12, fill: TRUNK, stroke: PAPER, "stroke-width": 2 }, this.body);
      for (const side of stretch.hands) {
        const [x, y] = at(`grip_${side}`);
        made("rect", { x: x - 9, y: y - 5, width: 18, height: 10, rx: 2, fill: LOAD, stroke: PAPER, "stroke-width": 1.5 }, this.body);
      }
    }
  }

  const start = (box) => {
    const [button, again, svg, words] = [".play", ".again", "svg", ".now"].map((name) => box.querySelector(name));
    let figure = null, running = false, begun = 0, passed = 0, wanted = 0;
    const show = (seconds) => {
      const { stretches } = figure.data;
      const whole = stretches.reduce((sum, s) => sum + s.seconds, 0);
      let left = seconds % whole, stretch = stretches[0];
      for (stretch of stretches) { if (left < stretch.seconds) break; left -= stretch.seconds; }
      const place = stretch.first + (stretch.last - stretch.first) * Math.min(1, left / stretch.seconds);
      const frame = Math.floor(place);
      figure.draw(stretch, frame, place - frame);
      name(stretch);
    };
    const name = (stretch) => {
      if (stretch.name && words.textContent !== stretch.name) words.textContent = stretch.name;
    };
    const showStill = (seconds) => {
      const stills = figure.data.stretches.flatMap((s) => s.keys.map((frame) => [s, frame]));
      const [stretch, frame] = stills[Math.floor(seconds / STILL_S) % stills.length];
      figure.draw(stretch, frame, 0);
      name(stretch);
    };
    const tick = (now) => {
      if (!running) return;
      passed = Math.max(0, now - begun) / 1000;
      if (LESS.matches) showStill(passed); else show(passed);
      wanted = requestAnimationFrame(tick);
    };
    const play = button.textContent;
    const set = (on) => {
      running = on;
      button.textContent = on ? box.dataset.pause : play;
      cancelAnimationFrame(wanted);
      if (on) { begun = performance.now() - passed * 1000; wanted = requestAnimationFrame(tick); }
    };
    button.addEventListener("click", async () => {
      if (figure === null) {
        const answer = await fetch(box.dataset.moving);
        if (!answer.ok) { words.textContent = box.dataset.failed; return; }
        figure = new Figure(svg, await answer.json());
        svg.removeAttribute("hidden");
        again.hidden = false;
      }
      set(!running);
    });
    again.addEventListener("click", () => { passed = 0; showStill(0); set(running); });
    document.addEventListener("visibilitychange", () => { if (document.hidden) set(false); });
    box.hidden = false;
  };
  document.querySelectorAll("[data-moving]").forEach(start);
})();
