// A bell that is heard in a room with a press in it.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.bell = (() => {
    let sound = null;

    function ring() {
        navigator.vibrate?.([300, 150, 300, 150, 300]);
        if (sound === null) {
            return;
        }
        // Three pairs of strokes.
        for (let stroke = 0; stroke < 6; stroke++) {
            const at = sound.currentTime + Math.floor(stroke / 2) * 0.7 + (stroke % 2) * 0.22;
            const tone = sound.createOscillator();
            const loud = sound.createGain();
            tone.type = "triangle";
            tone.frequency.value = stroke % 2 === 0 ? 880 : 1175;
            loud.gain.setValueAtTime(0.0001, at);
            loud.gain.exponentialRampToValueAtTime(0.8, at + 0.01);
            loud.gain.exponentialRampToValueAtTime(0.0001, at + 0.2);
            tone.connect(loud).connect(sound.destination);
            tone.start(at);
            tone.stop(at + 0.21);
        }
    }

    // Browsers let a page sound only after a touch: every tap on a button is that touch.
    function wake() {
        try {
            sound ??= new AudioContext();
            sound.resume();
        } catch {
            sound = null;
        }
    }

    return { ring, wake };
})();
