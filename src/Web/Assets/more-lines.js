// More lines on the page itself, so that the files that were chosen stay; without script the page comes back with more.
"use strict";

(() => {
    const MORE = 5;

    function next(line, number) {
        const copy = line.cloneNode(true);
        copy.querySelector("legend").textContent = line.querySelector("legend").textContent.replace(/\d+/, number);
        for (const label of copy.querySelectorAll("label")) {
            label.htmlFor = label.htmlFor.replace(/\d+$/, number);
        }
        for (const field of copy.querySelectorAll("input, select")) {
            field.id = field.id.replace(/\d+$/, number);
            field.name = field.id;
            if (field.tagName === "SELECT") {
                field.selectedIndex = 0;
            } else {
                field.value = "";
            }
        }
        return copy;
    }

    for (const button of document.querySelectorAll("[data-more-lines]")) {
        // Enter in a field makes the order: it presses the form's first button that sends it.
        button.type = "button";
        button.addEventListener("click", () => {
            const lines = [...button.form.querySelectorAll("fieldset.line")];
            const most = Number(button.dataset.moreLines);
            const added = [];
            for (let number = lines.length + 1; number <= Math.min(lines.length + MORE, most); number++) {
                added.push(next(lines.at(-1), number));
            }
            lines.at(-1).after(...added);
            added[0]?.querySelector("input").focus();
            button.hidden = lines.length + added.length >= most;
        });
    }
})();
