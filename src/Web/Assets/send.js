// A form goes only when the workshop's computer answers: a browser that finds nobody puts a page of its own in the place of all that
// was typed. So it is asked first; where nothing answers, the form stays as it is and says so. Without script a form goes at once.
"use strict";

(() => {
    const { notSent } = document.currentScript.dataset;
    const asking = new Set();
    const answered = new Set();

    // Any answer will do. What a device keeps answers no HEAD, so nobody but the workshop's computer can.
    async function isThere() {
        try {
            await fetch("/assets/here", { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(8000) });
            return true;
        } catch {
            return false;
        }
    }

    function tell(form, button) {
        const line = document.createElement("p");
        line.className = "fault not-sent";
        line.setAttribute("role", "alert");
        line.textContent = notSent;
        const row = button?.closest("p");
        if (row !== null && row !== undefined && form.contains(row)) {
            row.before(line);
        } else {
            form.append(line);
        }
        line.scrollIntoView({ block: "nearest" });
    }

    async function send(form, button) {
        asking.add(form);
        form.querySelectorAll(".not-sent").forEach((line) => line.remove());
        const there = await isThere();
        asking.delete(form);
        if (!there) {
            tell(form, button);
            return;
        }
        answered.add(form);
        form.requestSubmit(button);
        answered.delete(form);
    }

    // Before all others: what they do when a form goes is done once, when it goes.
    document.addEventListener(
        "submit",
        (event) => {
            const { target: form, submitter } = event;
            const method = submitter?.getAttribute("formmethod") ?? form.getAttribute("method");
            if (method?.toLowerCase() !== "post" || answered.has(form)) {
                return;
            }
            event.preventDefault();
            event.stopImmediatePropagation();
            if (!asking.has(form)) {
                send(form, submitter);
            }
        },
        true,
    );
})();
