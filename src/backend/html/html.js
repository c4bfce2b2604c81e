"use strict";
(() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const prefix = document.body.dataset.key + "/";
  const fields = all("[data-field]");

  // A browser may refuse to keep anything; the page works then as long as it is open.
  const store = (() => {
    try {
      const probe = prefix + "_probe";
      localStorage.setItem(probe, "1");
      localStorage.removeItem(probe);
      return localStorage;
    } catch {
      return null;
    }
  })();

  const read = (field) => {
    const value = store && store.getItem(prefix + field.dataset.field);
    if (field.type === "checkbox") field.checked = value === "1";
    else field.value = value || "";
  };

  const write = (field) => {
    const value = field.type === "checkbox" ? (field.checked ? "1" : "") : field.value;
    try {
      if (value) store?.setItem(prefix + field.dataset.field, value);
      else store?.removeItem(prefix + field.dataset.field);
    } catch {
      tell(false);
    }
  };

  const tell = (kept) => {
    for (const line of all(".kept")) if (!kept) line.textContent = line.dataset.not;
  };

  const count = (progress) => {
    const boxes = all("input[type=checkbox]", progress.closest("section"));
    const done = boxes.filter((box) => box.checked).length;
    const status = progress.querySelector("[role=status]");
    const words = status.dataset.words.replace("{done}", done).replace("{count}", boxes.length);
    if (status.textContent !== words) status.textContent = words;
    progress.querySelector(".bar span").style.width = (100 * done) / boxes.length + "%";
    const next = progress.querySelector(".next");
    const open = done > 0 && boxes.find((box) => !box.checked)?.closest(".step");
    next.hidden = !(open && open.id);
    if (!next.hidden) next.hash = open.id;
    progress.hidden = false;
  };

  const parts = all(".progress");
  if (store) fields.forEach(read);
  else tell(false);
  parts.forEach(count);

  document.addEventListener("input", ({ target }) => {
    if (!target.dataset || !target.dataset.field) return;
    write(target);
    const progress = target.closest("section")?.querySelector(".progress");
    if (progress) count(progress);
  });

  // The same packet in another window.
  addEventListener("storage", ({ key }) => {
    if (key !== null && !key.startsWith(prefix)) return;
    fields.forEach(read);
    parts.forEach(count);
  });

  const dialog = document.querySelector("dialog");
  let asked = null;
  for (const button of all(".anew")) {
    button.addEventListener("click", () => {
      asked = button.closest(".progress");
      dialog.querySelector("p").textContent = button.dataset.question;
      dialog.showModal();
    });
  }
  dialog.querySelector(".no").addEventListener("click", () => dialog.close());
  dialog.querySelector(".yes").addEventListener("click", () => {
    for (const field of all("[data-field]", asked.closest("section"))) {
      if (field.type === "checkbox") field.checked = false;
      else field.value = "";
      write(field);
    }
    count(asked);
    dialog.close();
  });

  // Only a table that has to scroll is a stop for the keyboard.
  const tables = new ResizeObserver((seen) => {
    for (const { target } of seen) {
      if (target.scrollWidth > target.clientWidth) {
        target.tabIndex = 0;
        target.setAttribute("role", "group");
        target.setAttribute("aria-label", target.dataset.label);
      } else {
        for (const name of ["tabindex", "role", "aria-label"]) target.removeAttribute(name);
      }
    }
  });
  all(".scroll").forEach((box) => tables.observe(box));
})();
