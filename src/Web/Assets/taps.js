// Sends what is tapped here. A tap counts at once on this screen; without the network it waits and is sent when the network is back.
// Every tap has a key: sent twice it counts once.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.taps = (() => {
    const { here, say } = coldpeel;
    // What is planned again takes the workshop a moment; the other taps do not wait for it.
    const sending = { plain: false, plan: false };
    // After an answer that a whole handful cannot be read, one tap after the other shows which it is.
    const singly = { plain: false, plan: false };

    // Not crypto.randomUUID: a tablet that comes by plain http in the workshop's own network has none.
    function newKey() {
        return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
    }

    function tap(saying, about, seconds = 0) {
        coldpeel.bell.wake();
        here.told = null;
        here.sure = null;
        const one = { key: newKey(), saying, about, seconds, atMs: Math.round(coldpeel.clock.now()), who: "" };
        here.waiting.push(one);
        here.keepTaps();
        here.mine = saying === "taken-back" ? null : one;
        here.refold();
        coldpeel.draw();
        send();
    }

    const plansAgain = (t) => t.saying === "added" || (t.saying === "late" && t.about !== "");

    // Nobody takes back what has not been said yet.
    function lane(kind) {
        const planning = here.waiting.filter(plansAgain);
        return (
            kind === "plan" ? planning.slice(0, 1) : here.waiting.filter((t) => !plansAgain(t) && !planning.some((p) => p.key === t.about))
        ).slice(0, singly[kind] ? 1 : 200);
    }

    function send() {
        deliver("plain");
        deliver("plan");
    }

    async function deliver(kind) {
        const some = lane(kind);
        if (sending[kind] || some.length === 0) {
            return;
        }
        sending[kind] = true;
        try {
            const answer = await fetch(`/bench/${here.dayId}/taps`, {
                method: "POST",
                headers: { "Content-Type": "application/json" },
                body: JSON.stringify(some.map(({ key, saying, about, seconds, atMs }) => ({ key, saying, about, seconds, atMs }))),
                signal: AbortSignal.timeout(kind === "plan" ? 20000 : 8000),
            });
            if (answer.status === 401 || answer.status === 403) {
                await coldpeel.news.leave();
                return;
            }
            // The workshop answers and cannot write: the taps wait here, and this screen says so.
            if (answer.status === 507 || answer.status === 503) {
                here.stuck = answer.status === 507 ? say("DiskFull") : say("CannotWrite");
                coldpeel.draw();
                setTimeout(send, 3000);
                return;
            }
            // Sent again it would not be read either, and all others would wait behind it.
            if (answer.status === 400) {
                if (some.length === 1) {
                    here.waiting = here.waiting.filter((t) => t.key !== some[0].key);
                    here.keepTaps();
                    here.told = say("TapDropped");
                    here.refold();
                    coldpeel.draw();
                } else {
                    singly[kind] = true;
                }
                setTimeout(send, 0);
                return;
            }
            if (answer.status >= 500) {
                here.stuck = say("ServerFault");
                coldpeel.draw();
                setTimeout(send, 3000);
                return;
            }
            if (!answer.ok) {
                throw new Error(String(answer.status));
            }
            here.stuck = null;
            const results = await answer.json();
            let again = false;
            for (const { key, event, refusal } of results) {
                here.waiting = here.waiting.filter((t) => t.key !== key);
                if (event !== undefined) {
                    again ||= coldpeel.news.changesTasks(event);
                    coldpeel.news.add(event);
                } else {
                    here.told = refusal;
                }
            }
            here.keepTaps();
            if (again) {
                await coldpeel.news.fetchDay();
            }
            here.refold();
            coldpeel.news.keepDay();
            coldpeel.draw();
        } catch {
            here.linked = false;
            setTimeout(send, 1500);
        } finally {
            sending[kind] = false;
            singly[kind] &&= lane(kind).length > 0;
        }
        if (lane(kind).length > 0 && here.linked && here.stuck === null) {
            setTimeout(send, 0);
        }
    }

    return { tap, send, plansAgain };
})();
