// A form with files that is refused stays where it is: what was typed and the files that were chosen are still there, and only what
// is wrong is shown. Without script the page comes back with what was typed; files are chosen again then.
"use strict";

(() => {
    const { notSent } = document.querySelector("script[data-not-sent]").dataset;

    function show(form, told) {
        document.querySelector("main [role=alert]")?.remove();
        told.setAttribute("role", "alert");
        told.tabIndex = -1;
        form.before(told);
        told.focus();
    }

    function line(words) {
        const told = document.createElement("p");
        told.className = "fault";
        told.textContent = words;
        return told;
    }

    function ready(form) {
        form.dispatchEvent(new Event("stayed"));
    }

    async function send(form, body) {
        let answer;
        let page;
        try {
            answer = await fetch(form.action, { method: "POST", body });
            page = answer.redirected ? null : new DOMParser().parseFromString(await answer.text(), "text/html");
        } catch {
            ready(form);
            show(form, line(notSent));
            return;
        }
        if (page === null) {
            location.assign(answer.url);
            return;
        }
        const alert = page.querySelector("main [role=alert]");
        alert?.querySelectorAll("[data-reloaded]").forEach((words) => words.remove());
        // What is asked because of it, such as whether a day that is over is meant.
        for (const asked of page.querySelectorAll("[data-asked]")) {
            if (document.querySelector(`[data-asked="${asked.dataset.asked}"]`) === null) {
                form.querySelector("[data-ask-here]").before(document.adoptNode(asked));
            }
        }
        ready(form);
        show(form, alert === null ? line((page.querySelector("main .lead") ?? page.querySelector("main")).textContent) : document.adoptNode(alert));
    }

    document.addEventListener("submit", (event) => {
        const { target: form, submitter } = event;
        if (!event.defaultPrevented && form.hasAttribute("data-stays")) {
            event.preventDefault();
            send(form, new FormData(form, submitter));
        }
    });
})();
