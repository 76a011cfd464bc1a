// A panel on the page: native controls with labels, one picture, one sentence said aloud.
// The page sends the controls' values; Python answers with picture and words in one message.

// JupyterLab must not take arrow keys or letters meant for a control as shortcuts of its own (two
// d's would delete the cell), but Shift+Enter still runs the cell and Ctrl+S still saves. It looks
// for this mark on the very element that has the focus, before any listener further in.
function keepKeys(event) {
  if (!event.target.dataset?.control) return;
  const theirs = event.ctrlKey || event.metaKey || (event.shiftKey && event.key === "Enter");
  event.target.toggleAttribute("data-lm-suppress-shortcuts", !theirs);
}

function make(tag, className, text) {
  const node = document.createElement(tag);
  if (className) node.className = className;
  if (text !== undefined) node.textContent = text;
  return node;
}

function withUnit(text, unit) {
  return unit ? `${text}\u00a0${unit}` : text;
}

// One control: { row, input, get(), set(raw) }; `changed` is called when the student moves it.
const build = {
  slider(spec, id, changed) {
    const input = make("input");
    Object.assign(input, { type: "range", id, min: spec.low, max: spec.high, step: spec.step });
    const shown = make("output");
    shown.htmlFor = id;
    shown.setAttribute("aria-live", "off"); // the slider says its value itself
    const say = () => {
      shown.value = withUnit(Number(input.value).toFixed(spec.decimals), spec.unit);
      input.setAttribute("aria-valuetext", shown.value);
    };
    input.addEventListener("input", () => {
      say();
      changed();
    });
    const set = (raw) => {
      input.value = raw;
      say();
    };
    say(); // a start in the very middle is where the browser puts it: then nothing sets it
    return { input, beside: shown, get: () => Number(input.value), set };
  },

  choice(spec, id, changed) {
    const input = make("select");
    input.id = id;
    for (const label of spec.options) input.add(new Option(label, label));
    input.addEventListener("change", changed);
    return { input, get: () => input.value, set: (raw) => (input.value = raw) };
  },

  // A text field, not type=number: that one drops a decimal comma, so that 4,5 becomes 45.
  number(spec, id, changed) {
    const input = make("input");
    Object.assign(input, { type: "text", inputMode: "decimal", id, autocomplete: "off" });
    input.setAttribute("role", "spinbutton");
    input.setAttribute("aria-valuemin", spec.low);
    input.setAttribute("aria-valuemax", spec.high);
    let kept = "";
    const write = (raw) => (raw === "" ? "" : Number(raw).toFixed(spec.decimals));
    const clip = (number) => Math.min(Math.max(number, spec.low), spec.high);
    const read = () => {
      const text = input.value.trim().replace(",", ".");
      if (text === "") return spec.blank ? "" : null;
      const number = Number(text);
      return Number.isFinite(number) ? number : null;
    };
    const note = () => {
      if (kept === "") input.removeAttribute("aria-valuenow");
      else input.setAttribute("aria-valuenow", kept);
      input.setAttribute("aria-valuetext", kept === "" ? "blank" : withUnit(write(kept), spec.unit));
    };
    const set = (raw) => {
      kept = raw;
      input.value = write(raw);
      note();
    };
    input.addEventListener("input", () => {
      const raw = read(); // while typing only what already fits counts
      if (raw === null || (raw !== "" && raw !== clip(raw))) return;
      kept = raw;
      note();
      changed();
    });
    input.addEventListener("change", () => {
      const raw = read();
      set(raw === null ? kept : raw === "" ? "" : clip(raw));
      changed();
    });
    input.addEventListener("keydown", (event) => {
      const way = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
      if (!way) return;
      event.preventDefault();
      set(clip((kept === "" ? spec.low : Number(kept)) + way * spec.step));
      changed();
    });
    const beside = spec.unit ? make("span", "hc-unit", spec.unit) : null;
    return { input, beside, get: () => kept, set };
  },

  text(spec, id, changed) {
    const input = make("input");
    Object.assign(input, { type: "text", id, maxLength: spec.length, autocomplete: "off" });
    input.addEventListener("change", changed);
    return { input, get: () => input.value, set: (raw) => (input.value = raw) };
  },

  tick(spec, id, changed) {
    const input = make("input");
    Object.assign(input, { type: "checkbox", id });
    input.addEventListener("change", changed);
    return { input, get: () => input.checked, set: (raw) => (input.checked = Boolean(raw)) };
  },
};

function render({ model, el }) {
  const spec = model.get("spec");
  const id = `hc-${Math.random().toString(36).slice(2)}`; // each panel runs its own copy of this
  const root = make("section", "hc-panel");
  root.setAttribute("role", "group");
  root.setAttribute("aria-labelledby", `${id}-title`);
  root.style.setProperty("--hc-width", `${spec.width}px`);
  root.style.setProperty("--hc-larger", spec.larger);

  const title = make("h3", "hc-title", spec.title);
  title.id = `${id}-title`;

  const figure = make("figure", "hc-figure");
  const image = make("img", "hc-picture");
  image.decoding = "sync"; // a new picture and its words appear in one frame
  image.width = spec.width;
  image.height = spec.height;
  figure.append(image);

  const sentence = make("p", "hc-sentence");
  sentence.setAttribute("role", "status");
  sentence.setAttribute("aria-live", "polite");

  // --- controls ---

  const controls = {};
  const bench = make("div", "hc-controls");
  const buttons = make("div", "hc-buttons");
  for (const one of spec.controls) {
    const own = `${id}-${one.name}`;
    let input;
    if (one.kind === "action") {
      input = make("button", "hc-button hc-action", one.label);
      input.type = "button";
      input.addEventListener("click", () => press(one.name));
      buttons.append(input);
    } else {
      const control = build[one.kind](one, own, () => ask());
      input = control.input;
      const row = make("div", `hc-control hc-${one.kind}`);
      const label = make("label", "hc-label", one.label);
      label.htmlFor = own;
      row.append(label, input);
      if (control.beside) row.append(control.beside);
      if (one.help) {
        const help = make("p", "hc-help", one.help);
        help.id = `${own}-help`;
        input.setAttribute("aria-describedby", help.id);
        row.append(help);
      }
      bench.append(row);
      controls[one.name] = control;
    }
    input.dataset.control = one.name;
    if (one.kind === "action" && one.help) input.title = one.help;
  }

  const values = () =>
    Object.fromEntries(Object.entries(controls).map(([name, control]) => [name, control.get()]));
  const place = (raw) => {
    for (const [name, control] of Object.entries(controls)) {
      const inHand = control.input === document.activeElement;
      if (name in raw && raw[name] !== control.get() && !inHand) control.set(raw[name]);
    }
  };

  const back = make("button", "hc-button hc-back", "Back to the start");
  back.type = "button";
  back.dataset.control = "back to the start";
  back.addEventListener("click", () => {
    place(spec.start);
    ask();
  });
  const larger = make("button", "hc-button hc-larger");
  larger.type = "button";
  larger.dataset.control = "larger";
  larger.addEventListener("click", () => resize(root.dataset.size !== "presenting"));
  const resize = (large) => {
    root.dataset.size = large ? "presenting" : "";
    larger.textContent = large ? "Smaller" : "Larger";
  };
  if (Object.keys(controls).length) buttons.append(back);
  buttons.append(larger);

  // --- asking ---
  // The widget manager keeps one message on its way and merges the later ones into the next, so
  // the last value always wins and nothing queues up.

  let waiting;
  let settled;

  function ask() {
    model.set("values", values());
    model.set("asked", model.get("asked") + 1);
    model.save_changes();
    expect();
  }

  // A press travels with the values, so that it can neither overtake them nor be lost.
  function press(name) {
    const before = model.get("pressed");
    model.set("pressed", [...before.slice(-9), { name, count: (before.at(-1)?.count ?? 0) + 1 }]);
    ask();
  }

  function expect() {
    sentence.setAttribute("aria-busy", "true"); // read aloud when the hand rests, not before
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      root.dataset.waiting = "true";
      words("Waiting for an answer. If nothing moves, click this cell and press Shift+Enter.");
    }, 4000);
  }

  // Python paints the picture in the very pixels it will fill, so that type is sharp.
  function measure() {
    const scale = (image.clientWidth * (window.devicePixelRatio || 1)) / spec.width;
    if (scale > 0 && Math.abs(scale - model.get("scale")) > 0.001) {
      model.set("scale", scale);
      ask();
    }
  }
  let measuring;
  const watch = new ResizeObserver(() => {
    clearTimeout(measuring);
    measuring = setTimeout(measure, 150);
  });

  // --- answers ---

  let shown = null; // the bytes on the page
  let address = null;
  let next = null; // the newest answer not yet on the page
  let swapping = false;

  function words(text) {
    if (sentence.textContent !== text) sentence.textContent = text;
  }

  function say(answer) {
    words(answer.sentence);
    image.alt = answer.alt;
    root.dataset.kind = answer.kind;
    root.dataset.waiting = "";
    root.dataset.answered = answer.answered;
  }

  async function swap() {
    if (swapping) return;
    swapping = true;
    while (next) {
      const answer = next;
      next = null;
      if (answer.picture !== shown) {
        const fresh = URL.createObjectURL(new Blob([answer.picture], { type: "image/png" }));
        const ready = new Image();
        try {
          await new Promise((loaded, failed) => {
            Object.assign(ready, { onload: loaded, onerror: failed, src: fresh });
          }); // the old picture stays until the new one is there
        } catch {
          URL.revokeObjectURL(fresh);
          continue;
        }
        image.src = fresh;
        if (address) URL.revokeObjectURL(address);
        address = fresh;
        shown = answer.picture;
      }
      say(answer);
    }
    swapping = false;
  }

  function answer() {
    const names = ["picture", "sentence", "alt", "kind", "answered"];
    return Object.fromEntries(names.map((name) => [name, model.get(name)]));
  }

  function answered() {
    clearTimeout(waiting);
    clearTimeout(settled);
    settled = setTimeout(() => sentence.setAttribute("aria-busy", "false"), 300);
    next = answer();
    swap();
    // where a panel is shown twice, the other one's controls follow
    if (model.get("answered") === model.get("asked")) place(model.get("values"));
  }

  // --- all together ---

  place(model.get("values"));
  address = URL.createObjectURL(new Blob([model.get("picture")], { type: "image/png" }));
  image.src = address;
  shown = model.get("picture");
  say(answer());
  root.append(title, figure, sentence);
  if (Object.keys(controls).length) root.append(bench);
  root.append(buttons);
  el.append(root);

  model.on("change:answered", answered);
  window.addEventListener("keydown", keepKeys, true);
  resize(spec.size === "presenting");
  watch.observe(image);

  return () => {
    watch.disconnect();
    clearTimeout(measuring);
    model.off("change:answered", answered);
    window.removeEventListener("keydown", keepKeys, true);
    clearTimeout(waiting);
    clearTimeout(settled);
    URL.revokeObjectURL(address);
  };
}

export default { render };
