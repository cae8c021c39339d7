// The size of a sheet of one's own is asked only where none of the usual ones is chosen. Without this script the fields are grey then, and not counted.
"use strict";

const sheets = document.getElementById("sheets");
const own = document.getElementById("own-sheet");
if (sheets !== null && own !== null) {
    const follow = () => (own.disabled = sheets.value !== "own");
    sheets.addEventListener("change", follow);
    // A browser that comes back to the page fills the list in by itself.
    addEventListener("pageshow", follow);
    follow();
}
