// Invented orders are being made: the page is asked for again until they are there.
"use strict";

setTimeout(() => location.reload(), 3000);
