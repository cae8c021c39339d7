// Says that the order is being made, and keeps a second press of the button from making it twice.
"use strict";

for (const form of document.querySelectorAll("form[data-busy]")) {
    form.addEventListener("submit", () => {
        form.querySelector(".busy").textContent = form.dataset.busy;
        form.querySelector("button[type=submit]").disabled = true;
    });
}
// A page that comes back from the browser's memory is ready again.
addEventListener("pageshow", () => {
    for (const button of document.querySelectorAll("form[data-busy] button[type=submit]")) {
        button.disabled = false;
    }
});
