// Tests the tests: changes the engine in one place at a time and sees whether the engine tests go red.
//
//   node tests/mutation/run.mjs                  150 changes, drawn with seed 1; an hour or two
//   node tests/mutation/run.mjs 40 7             40 changes, drawn with seed 7
//   node tests/mutation/run.mjs 150 1 12,31      of that sample only changes 12 and 31, to show that a new test sees them
//
// Needs what tests/run installs. Works on a copy of the sources in .build/mutation, where it leaves `results.txt`: a line
// for each change, caught or not, and the figures. Uses one core. Is no part of tests/run. What survived and why:
// survivors.md.
//
// Changed are operators, comparisons, constants, minus, not, true/false, min/max, sine/cosine, any/all in the three
// folders below, each place as likely as the others, but in headers one in eight (a change there builds everything
// anew). A step `++i` of a `for` is left alone: any test would hang. What does not compile, or compiles to the same
// program, is not counted; another is drawn for it.
// Left out of the tests are those of hearing: slow, and all but one know nothing of these folders.
import {spawnSync} from "node:child_process";
import {createHash} from "node:crypto";
import {appendFileSync, cpSync, existsSync, mkdirSync, readFileSync, writeFileSync} from "node:fs";
import {fileURLToPath} from "node:url";

const folders = [ "engine/mechanics/", "engine/belief/", "engine/advice/" ];
const header_share = 1 / 8;
// Tests are run in groups by their duration, the next group only where the one before found nothing.
const group_limits_s = [ 0.05, 0.3, 4, Infinity ];
const left_out = [ "#hearing_test", "#walk_by_sound_test", "#transform_test", "#wav_test" ];
const patience = 3; // times as long as unchanged counts as caught
const most_kilobytes = 4e6;

const root = fileURLToPath(new URL("../..", import.meta.url));
const place = root + ".build/mutation/", copy = place + "source/", build = place + "build/";
const program = build + "tests/counterpull_tests";
const count = Number(process.argv[2] ?? 150), seed = Number(process.argv[3] ?? 1);
const only = process.argv[4]?.split(",").map(Number);

// Mulberry32, in the public domain.
function generator(state) {
    return () => {
        state = (state + 0x6D2B79F5) | 0;
        let t = Math.imul(state ^ (state >>> 15), 1 | state);
        t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
        return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    };
}

const instead = {
    "+" : [ "-" ], "-" : [ "+" ], "*" : [ "/" ], "/" : [ "*" ],
    "+=" : [ "-=" ], "-=" : [ "+=" ], "*=" : [ "/=" ], "/=" : [ "*=" ],
    "<" : [ "<=", ">=" ], "<=" : [ "<", ">" ], ">" : [ ">=", "<=" ], ">=" : [ ">", "<" ],
    "==" : [ "!=" ], "!=" : [ "==" ], "&&" : [ "||" ], "||" : [ "&&" ], "++" : [ "--" ], "--" : [ "++" ],
    "true" : [ "false" ], "false" : [ "true" ], "min" : [ "max" ], "max" : [ "min" ], "any_of" : [ "all_of" ],
    "all_of" : [ "any_of" ], "cos" : [ "sin" ], "sin" : [ "cos" ], "cosine" : [ "sine" ], "sine" : [ "cosine" ],
};
function other_numbers(text) {
    if (/^\d+$/.test(text))
        return text === "0" ? [ "1" ] : [ String(Number(text) + 1), String(Number(text) - 1) ];
    const number = Number(text);
    return number === 0 ? [ "1.0" ] : [ `(2.0 * ${text})`, `(0.5 * ${text})` ];
}
// Binary operators have a space on both sides: the sources are formatted.
/** @type {[RegExp, (text: string) => string[]][]} */
const kinds = [
    [ /(?<=\s)(?:[-+*/<>=!]=|&&|\|\||[-+*/<>])(?=\s)/g, (text) => instead[text] ],
    [ /(?<!;\s*)(?:\+\+|--)/g, (text) => instead[text] ],
    [ /(?<=[(,=?:{[\s])[-!](?=[\w(*])/g, () => [ " " ] ],
    [ /\b(?:true|false)\b|(?<=std::)(?:min|max|any_of|all_of|cos|sin)\b|(?<=\.)(?:cosine|sine)\b/g, (text) => instead[text] ],
    [ /(?<![\w.])\d+(?:\.\d+)?(?:e[-+]?\d+)?(?![\w.])/g, other_numbers ],
];
const not_code = /\/\/.*|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])'|^#.*|static_assert\([^;]*;/gm;

function places_in(file) {
    const code = readFileSync(root + file, "utf8").replace(not_code, (text) => text.replace(/\S/g, " "));
    const all = [];
    for (const [pattern, others] of kinds)
        for (const match of code.matchAll(pattern))
            all.push({file, at : match.index, was : match[0], others : others(match[0])});
    return all;
}

// In the order drawn; `id` is the place in it.
function drawn(files) {
    const random = generator(seed);
    const places = files.flatMap(places_in).filter(({others}) => others);
    return places.map((at) => ({...at, key : random() / (at.file.endsWith(".h") ? header_share : 1), pick : random()}))
        .sort((a, b) => a.key - b.key)
        .map((at, id) => ({...at, id, becomes : at.others[Math.floor(at.pick * at.others.length)]}));
}

function run(command, args, options = {}) {
    return spawnSync(command, args, {encoding : "utf8", maxBuffer : 1 << 28, ...options});
}
const built = () => run("nice", [ "-n", "15", "cmake", "--build", build, "-j", "1", "--target", "counterpull_tests" ]);
const digest = () => createHash("sha256").update(readFileSync(program)).digest("hex");
function tests(args, seconds) {
    const limits = `ulimit -v ${most_kilobytes} -t ${seconds}`; // of processor time: others may keep it busy
    return run("bash", [ "-c", `${limits}; exec nice -n 15 "$@"`, "tests", program, ...args ], {cwd : copy});
}

// The tests in groups by duration: {file of names, seconds}.
function groups() {
    const found = tests([ "-#", left_out.map((tag) => `~[${tag}]`).join(""), "--durations", "yes" ], 1200);
    if (found.status !== 0)
        throw Error("the tests fail on the engine as it is\n" + found.stdout.slice(-3000));
    const times = [...found.stdout.matchAll(/^(\d+\.\d+) s: (.*)$/gm)].map(([, seconds, name]) => ({seconds : Number(seconds), name}));
    return group_limits_s
        .map((limit, g) => {
            const inside = times.filter(({seconds}) => seconds <= limit && (g === 0 || seconds > group_limits_s[g - 1]));
            const list = `${place}group-${g}.txt`;
            writeFileSync(list, inside.map(({name}) => `"${name.replace(/[",[\\]/g, "\\$&")}"\n`).join(""));
            const listed = tests([ "--list-test-names-only", "-f", list ], 60).stdout.trim().split("\n").length;
            if (inside.length > 0 && listed !== inside.length)
                throw Error(`of ${inside.length} tests ${listed} are found by their names`);
            return {list, size : inside.length, seconds : inside.reduce((sum, {seconds}) => sum + seconds, 0)};
        })
        .filter(({size}) => size > 0);
}

// What becomes of one change: "caught by …", "survived", "does not compile", "same program".
function outcome(change, all_groups, unchanged) {
    const text = readFileSync(root + change.file, "utf8");
    writeFileSync(copy + change.file, text.slice(0, change.at) + change.becomes + text.slice(change.at + change.was.length));
    try {
        if (built().status !== 0)
            return "does not compile";
        if (digest() === unchanged)
            return "same program";
        for (const group of all_groups) {
            const {status, signal, stdout} = tests([ "--abort", "-f", group.list ], Math.ceil(patience * group.seconds + 2));
            if (status !== 0)
                return `caught by ${signal === "SIGXCPU" ? "the clock" : /^-{70,}\n(.*)/m.exec(stdout)?.[1] ?? "a crash"}`;
        }
        return "survived";
    } finally {
        writeFileSync(copy + change.file, text);
    }
}

function tell(line) {
    console.log(line);
    appendFileSync(place + "results.txt", line + "\n");
}

mkdirSync(copy, {recursive : true});
const files = run("git", [ "ls-files" ], {cwd : root}).stdout.trim().split("\n").filter((file) => existsSync(root + file));
for (const file of files) {
    const same = existsSync(copy + file) && readFileSync(copy + file).equals(readFileSync(root + file));
    if (!same)
        cpSync(root + file, copy + file);
}
// Warnings are off: what is no longer used after a change is no reason not to build it.
run("cmake", [ "-S", copy, "-B", build, "-G", "Ninja", "-DCOUNTERPULL_TESTS=ON", "-DCMAKE_CXX_FLAGS=-w" ], {stdio : "inherit"});
const clean = built();
if (clean.status !== 0)
    throw Error(clean.stdout.slice(-3000));
writeFileSync(place + "results.txt", "");
const all_groups = groups(), unchanged = digest();
for (const {size, seconds} of all_groups)
    tell(`# ${size} tests in ${seconds.toFixed(1)} s`);

const all = drawn(files.filter((file) => /\.(cpp|h)$/.test(file) && folders.some((folder) => file.startsWith(folder))));
tell(`# ${all.length} places, ${all.filter(({file}) => file.endsWith(".h")).length} of them in headers; seed ${seed}`);
const totals = {caught : 0, survived : 0, same : 0, does : 0};
let next = 0;
const wanted = only?.length ?? count;
while (totals.caught + totals.survived < wanted && next < all.length) {
    const more = only && next === 0 ? all.filter(({id}) => only.includes(id))
                                    : all.slice(next, next + wanted - totals.caught - totals.survived);
    next = only ? all.length : next + more.length;
    // File by file, so that less is built.
    for (const change of more.sort((a, b) => a.file.localeCompare(b.file) || a.at - b.at)) {
        const line = readFileSync(root + change.file, "utf8").slice(0, change.at).split("\n").length;
        const was = outcome(change, all_groups, unchanged);
        ++totals[was.split(" ")[0]];
        tell(`${change.id}\t${change.file}:${line}\t${change.was} → ${change.becomes.trim() || "nothing"}\t${was}`);
    }
}
built(); // as it was
tell(`# ${totals.caught} of ${totals.caught + totals.survived} caught, ${totals.survived} survived; not counted: ${
    totals.same} the same program, ${totals.does} that do not compile`);
