// The engine's frequencies against a music-theory package (npm: tonal), through the command line.
// A4 = 440 Hz is ISO 16.
import assert from "node:assert/strict";
import {execFileSync} from "node:child_process";
import {readFileSync} from "node:fs";
import {test} from "node:test";
import {Note} from "tonal";

const binary = process.env.COUNTERPULL_BINARY;
const example = JSON.parse(readFileSync(new URL("../examples/lower-and-heavier.json", import.meta.url), "utf8"));

function pitches(notes, a4 = 440) {
    const setup = structuredClone(example);
    setup.a4_hz = a4;
    setup.now.tuning = notes;
    // A thin string takes any of these pitches; whether it would hold is not asked here.
    setup.now.strings = notes.map(() => ({gauge_in : 0.01, wound : false}));
    setup.now.in_tune = false;
    setup.now.spring_mm = [ 74, 74, 74 ];
    const report =
        JSON.parse(execFileSync(binary, [ "report", "-", "--json" ], { input: JSON.stringify(setup), encoding: "utf8" }));
    return report.now.strings.map((string) => string.pitch_hz);
}

const names = [];
for (let octave = 0; octave <= 8; ++octave)
    for (const letter of "CDEFGAB")
        for (const accidental of ["", "#", "b", "##", "bb"]) {
            const name = letter + accidental + octave;
            const key = Note.midi(name);
            if (key >= 23 && key <= 108)
                names.push(name);
        }

for (const a4 of [440, 432, 442])
    test(`every pitch name from B0 to C8 sounds as the package says, A4 = ${a4} Hz`, () => {
        assert.ok(names.length > 200);
        for (let i = 0; i < names.length; i += 6) {
            const six = names.slice(i, i + 6);
            while (six.length < 6)
                six.push("A4");
            const ours = pitches(six, a4);
            six.forEach((name, k) => {
                const theirs = (Note.freq(name) * a4) / 440;
                assert.ok(Math.abs(ours[k] / theirs - 1) < 1e-8, `${name}: ${ours[k]} and ${theirs}`);
            });
        }
    });
