// At the door: a device that is not let in keeps nothing of the workshop.
"use strict";

coldpeel.kept.forget().catch(() => {});
