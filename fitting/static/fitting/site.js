// Small comforts on top of pages that work without them. Hooks on data- attributes only.
"use strict";

const DRAFT = "longrein-draft:";
const FRACTION = /\s*[⅛¼⅜½⅝¾⅞]$/u;
const RESEND_AFTER_MS = 8000;
const WAIT_BEFORE_KEEPING_MS = 300;

// Storage may be full or forbidden; a page without drafts still works.
const store = {
  read(key) {
    try {
      return JSON.parse(localStorage.getItem(DRAFT + key));
    } catch {
      return null;
    }
  },
  write(key, value) {
    try {
      localStorage.setItem(DRAFT + key, JSON.stringify(value));
      return true;
    } catch {
      return false;
    }
  },
  forget(key) {
    try {
      localStorage.removeItem(DRAFT + key);
    } catch {
      // nothing was kept
    }
  },
  forgetAll() {
    try {
      Object.keys(localStorage)
        .filter((key) => key.startsWith(DRAFT))
        .forEach((key) => localStorage.removeItem(key));
    } catch {
      // nothing was kept
    }
  },
};

const each = (root, selector, act) => {
  if (root.matches?.(selector)) act(root);
  root.querySelectorAll(selector).forEach(act);
};

const make = (tag, className, text) => {
  const made = document.createElement(tag);
  made.className = className;
  made.textContent = text;
  if (tag === "button") made.type = "button";
  return made;
};

// Fraction keys: one row of keys serves all reading boxes of its group.
function press(input, fraction) {
  const bare = input.value.replace(FRACTION, "");
  input.value = input.value === bare + fraction ? bare : bare + fraction;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  input.focus();
}

function giveKeys(input) {
  const group = input.closest("[data-fraction-group], .ask, .field");
  input.inputMode = "decimal";
  if (!group || group.querySelector(".keys")) return;
  const boxes = [...group.querySelectorAll("input[data-fractions]")];
  let current = boxes.find((box) => !box.value) || boxes[0];
  group.addEventListener("focusin", (event) => {
    if (boxes.includes(event.target)) current = event.target;
  });
  const keys = make("div", "keys", "");
  keys.setAttribute("role", "group");
  keys.setAttribute("aria-label", "Fractions of an inch");
  for (const fraction of (input.dataset.fractions || "¼ ½ ¾").split(" ")) {
    const key = make("button", "key", fraction);
    key.addEventListener("mousedown", (event) => event.preventDefault());
    key.addEventListener("click", () => press(current, fraction));
    keys.append(key);
  }
  (input.closest(".three") || input).after(keys);
}

// Drafts: what was typed stays on this device until the site says it is saved.
const fieldsOf = (form) =>
  [...form.elements].filter(
    (field) =>
      field.name &&
      field.name !== "csrfmiddlewaretoken" &&
      !["password", "file", "submit", "button"].includes(field.type),
  );

const isChoice = (field) => ["checkbox", "radio"].includes(field.type);

function valuesOf(form) {
  return fieldsOf(form).map((field) => [
    field.name,
    isChoice(field) ? [field.value, field.checked] : field.value,
  ]);
}

// Each field of the form with what was kept of it.
function beside(form, values) {
  const fields = fieldsOf(form);
  return values.flatMap(([name, value]) => {
    const choice = Array.isArray(value);
    const index = fields.findIndex(
      (field) => field.name === name && (!choice || field.value === value[0]),
    );
    if (index < 0) return [];
    return [[fields.splice(index, 1)[0], choice ? value[1] : value]];
  });
}

const now = (field) => (isChoice(field) ? field.checked : field.value);

// A refused page shows what was typed already, under the revision it was refused for.
const shows = (form, values) =>
  beside(form, values).every(
    ([field, value]) => field.type === "hidden" || now(field) === value,
  );

function fill(form, values) {
  for (const [field, value] of beside(form, values)) {
    if (isChoice(field)) field.checked = value;
    else field.value = value;
  }
}

function say(form, text, key) {
  form.querySelector(".kept")?.remove();
  const note = make("p", "kept", `${text} `);
  note.setAttribute("role", "status");
  const forget = make("button", "linkb", "Forget it");
  forget.addEventListener("click", () => {
    store.forget(key);
    window.location.reload();
  });
  note.append(forget);
  form.prepend(note);
}

const clock = (at) =>
  new Date(at)
    .toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" })
    .replace(":", ".");

const keptSince = (draft) =>
  `Kept on this phone since ${clock(draft.at)}, not yet written in.`;

// A form that may: sent by itself, once, when the signal is back.
function sendLater(form, button) {
  if (!("sendLater" in form.dataset)) return "";
  if (!form.dataset.waiting) {
    form.dataset.waiting = "yes";
    const send = () => {
      delete form.dataset.waiting;
      form.requestSubmit(button);
    };
    window.addEventListener("online", send, { once: true });
  }
  return " Leave this page open: it is sent once, when the signal is back.";
}

// What a stop sign asks for: as it says beside the sign, or as its own words read.
function levelOf(form, own) {
  const sign = form.querySelector("input[name=stop]:checked");
  if (sign?.dataset.level) return sign.dataset.level;
  if (!sign?.value) return "";
  const said = JSON.parse(own.dataset.levelWords).find(([, words]) =>
    new RegExp(words, "i").test(own.value),
  );
  return said ? said[0] : "";
}

function fillLevel(own) {
  const form = own.form;
  const level = form.querySelector("select[data-level]");
  const chosen = () => form.querySelector("input[name=stop]:checked");
  const hush = () => {
    own.disabled = chosen()?.value !== own.dataset.when; // kept, and not sent
  };
  const put = () => {
    hush();
    level.value = levelOf(form, own);
  };
  hush();
  own.addEventListener("input", put);
  form.querySelectorAll("input[name=stop]").forEach((sign) => sign.addEventListener("change", put));
}

function keepDraft(form) {
  const key = form.dataset.draft;
  const draft = store.read(key);
  if (draft && !shows(form, draft.values)) {
    fill(form, draft.values);
    say(form, keptSince(draft), key);
  }
  let waiting = 0;
  const keep = () =>
    store.write(key, { at: draft?.at || Date.now(), values: valuesOf(form) });
  form.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(keep, WAIT_BEFORE_KEEPING_MS);
  });
  form.addEventListener("submit", (event) => {
    clearTimeout(waiting);
    const kept = keep();
    if (navigator.onLine || !kept) return;
    event.preventDefault();
    const later = sendLater(form, event.submitter);
    say(form, `No signal. ${keptSince(store.read(key))}${later}`, key);
  });
  form.addEventListener("htmx:sendError", () => {
    clearTimeout(waiting);
    if (keep()) say(form, `No signal. ${keptSince(store.read(key))}`, key);
  });
}

// A form goes once; after a while it may go again, in case the signal was lost.
function sendOnce(form) {
  form.addEventListener("submit", (event) => {
    if (event.defaultPrevented) return;
    if (form.dataset.sent) {
      event.preventDefault();
      return;
    }
    const buttons = [...form.elements].filter((field) => field.type === "submit");
    const mark = (sent) => {
      if (sent) form.dataset.sent = "yes";
      else delete form.dataset.sent;
      buttons.forEach((button) => {
        if (sent) button.setAttribute("aria-disabled", "true");
        else button.removeAttribute("aria-disabled");
      });
    };
    mark(true);
    setTimeout(() => mark(false), RESEND_AFTER_MS);
  });
}

async function copy(button) {
  const source = document.querySelector(button.dataset.copy);
  const before = button.textContent;
  try {
    await navigator.clipboard.writeText(source.value ?? source.textContent.trim());
    button.textContent = button.dataset.copied || "Copied";
  } catch {
    source.select?.();
    return;
  }
  setTimeout(() => {
    button.textContent = before;
  }, 2000);
}

function giveCopying(button) {
  button.hidden = false;
  button.addEventListener("click", () => copy(button));
}

function givePrinting(button) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}

// What an address leads to may lie folded.
function unfold() {
  const target = document.getElementById(location.hash.slice(1));
  let fold = target?.closest("details");
  if (!fold || fold.open) return;
  for (; fold; fold = fold.parentElement.closest("details")) fold.open = true;
  target.scrollIntoView();
}

// Paper shows all: not every browser prints what is folded.
function printWhole() {
  const folded = [...document.querySelectorAll("details[data-whole]:not([open])")];
  for (const fold of folded) fold.open = true;
  const foldAgain = () => folded.forEach((fold) => (fold.open = false));
  window.addEventListener("afterprint", foldAgain, { once: true });
}

function setUp(root) {
  each(root, "[data-saved]", (said) => said.dataset.saved.split(" ").forEach(store.forget));
  each(root, "input[data-fractions]", giveKeys);
  each(root, "form[data-draft]", keepDraft);
  each(root, "form[method=post]", sendOnce);
  each(root, "input[data-level-words]", fillLevel);
  each(root, "[data-copy]", giveCopying);
  each(root, "[data-print]", givePrinting);
  each(root, "form[data-forget-drafts]", (form) =>
    form.addEventListener("submit", store.forgetAll),
  );
}

window.addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  document.querySelectorAll("form[data-sent]").forEach((form) => {
    delete form.dataset.sent;
    for (const field of form.elements) field.removeAttribute("aria-disabled");
  });
});
document.addEventListener("htmx:load", (event) => {
  if (event.detail.elt !== document.body) setUp(event.detail.elt);
});
window.addEventListener("beforeprint", printWhole);
window.addEventListener("hashchange", unfold);
setUp(document.body);
unfold();
