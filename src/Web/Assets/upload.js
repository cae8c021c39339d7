// Says that the order is being made, and keeps a second press of the button from making it twice.
"use strict";

const busy = new Set();
for (const form of document.querySelectorAll("form[data-busy]")) {
    form.addEventListener("submit", (event) => {
        if (busy.has(form)) {
            event.preventDefault();
            return;
        }
        busy.add(form);
        form.querySelector(".busy").textContent = form.dataset.busy;
        // Only when the form has gone: a button that is off at that moment would not tell which one was pressed.
        setTimeout(() => form.querySelectorAll("button[type=submit]").forEach((button) => (button.disabled = busy.has(form))), 0);
    });
    // It was refused, and stays as it is.
    form.addEventListener("stayed", () => ready(form));
}
function ready(form) {
    busy.delete(form);
    const line = form.querySelector(".busy");
    if (line !== null) {
        line.textContent = "";
    }
    form.querySelectorAll("button[type=submit]").forEach((button) => (button.disabled = false));
}
// Files dropped anywhere on the panel are chosen as if its own field had taken them.
for (const panel of document.querySelectorAll("[data-drop]")) {
    const field = document.getElementById(panel.dataset.drop);
    panel.addEventListener("dragover", (event) => {
        event.preventDefault();
        panel.classList.add("over");
    });
    panel.addEventListener("dragleave", () => panel.classList.remove("over"));
    panel.addEventListener("drop", (event) => {
        panel.classList.remove("over");
        // A field takes its own drops: a folder goes to the field for folders.
        if (event.target.type !== "file") {
            event.preventDefault();
            field.files = event.dataTransfer.files;
        }
    });
}
// A page that comes back from the browser's memory is ready again.
addEventListener("pageshow", () => {
    document.querySelectorAll("form[data-busy]").forEach(ready);
});
