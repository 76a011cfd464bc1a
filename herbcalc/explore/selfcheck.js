// Questions on the page: native radio buttons, checkboxes and fields in one form a question; what
// is said to an answer comes from Python and is read aloud where it appears.

let panels = 0; // for names that are unique on the page

// JupyterLab must not take keys meant for an answer as shortcuts of its own (Enter would edit the
// cell), but Shift+Enter still runs the cell and Ctrl+S still saves. It looks for this mark on the
// very element that has the focus, before any listener further in.
window.addEventListener(
  "keydown",
  (event) => {
    if (!event.target.dataset?.answer) return;
    const theirs = event.ctrlKey || event.metaKey || (event.shiftKey && event.key === "Enter");
    event.target.toggleAttribute("data-lm-suppress-shortcuts", !theirs);
  },
  true,
);

function make(tag, className, html) {
  const node = document.createElement(tag);
  if (className) node.className = className;
  if (html !== undefined) node.innerHTML = html; // made and escaped in Python
  return node;
}

function answerable(input) {
  input.dataset.answer = "yes";
  return input;
}

// The controls of one question; returns how to read them.
const build = {
  number(question, id, field) {
    const row = make("label", "hc-number-answer");
    const input = answerable(make("input"));
    Object.assign(input, { type: "text", inputMode: "decimal", autocomplete: "off", size: 10, id });
    input.setAttribute("aria-label", `Your answer, in ${question.unit}`);
    const unit = make("span", "hc-unit");
    unit.textContent = question.unit;
    row.append(input, unit);
    field.append(row);
    return () => input.value;
  },
  one: (question, id, field) => options("radio", question, id, field),
  some: (question, id, field) => options("checkbox", question, id, field),
};

function options(type, question, id, field) {
  const inputs = question.options.map(([letter, text]) => {
    const row = make("label", "hc-option");
    const input = answerable(make("input"));
    Object.assign(input, { type, name: id, value: letter });
    row.append(input, make("span", "", text));
    field.append(row);
    return input;
  });
  return () => inputs.filter((input) => input.checked).map((input) => input.value).join(", ");
}

function ask(model, question, place) {
  const id = `hc-question-${(panels += 1)}`;
  const form = make("form", "hc-question");
  form.dataset.question = question.name;
  const field = make("fieldset");
  field.append(make("legend", "", `${place}. ${question.prompt}`));
  const read = build[question.kind](question, id, field);
  const button = answerable(make("button", "hc-button hc-action", "Check"));
  const said = make("div", "hc-said");
  said.setAttribute("aria-live", "polite");
  form.append(field, button, said);
  form.addEventListener("input", () => said.replaceChildren()); // no longer about this answer
  // Inside a notebook a browser does not always send a form on Enter by itself.
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.shiftKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    form.requestSubmit();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    model.send({ check: question.name, answer: read() });
  });
  let count = 0;
  const show = () => {
    const card = model.get("said")[question.name];
    if (!card || card.count === count) return;
    count = card.count;
    said.innerHTML = card.html;
    said.dataset.outcome = card.outcome;
  };
  show();
  return { form, show };
}

function render({ model, el }) {
  const { title, questions } = model.get("spec");
  const panel = make("section", "hc-panel hc-selfcheck");
  panel.setAttribute("aria-label", title);
  const heading = make("h3", "hc-title");
  heading.textContent = title;
  const asked = questions.map((question, i) => ask(model, question, i + 1));
  const progress = make("p", "hc-progress");
  const showProgress = () => (progress.textContent = model.get("progress"));
  showProgress();
  panel.append(heading, ...asked.map(({ form }) => form), progress);
  el.append(panel);
  const showAll = () => asked.forEach(({ show }) => show());
  model.on("change:said", showAll);
  model.on("change:progress", showProgress);
  return () => {
    model.off("change:said", showAll);
    model.off("change:progress", showProgress);
  };
}

export default { render };
