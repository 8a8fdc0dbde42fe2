// The microphone, from the press of its button to its end: sound goes from the tap (web/hearing) straight to a Worker, and
// only what is heard comes here. Nothing of it is kept.
const silenceEnds = 120000, neverLoaded = 30000, neverBegan = 8000, looksBack = 1500; // ms
const clips = 0.985, quiet = 0.004; // of the loudest that there can be
const stringsFrom = 6, ofString = 6;

// What keeps a browser from listening, by the name of its error.
const whyNot = { NotAllowedError: "listening.denied", SecurityError: "listening.denied", NotFoundError: "listening.no_device", OverconstrainedError: "listening.no_device",
  NotReadableError: "listening.taken", AbortError: "listening.taken" };

// What is said of it in English (put in by web/pack.mjs), or by the words of the page's language.
/** @type {(key: string) => string | undefined} */
let pageText = () => "";
const text = (key) => key && (pageText(key) ?? LISTENING_WORDS[key]);

let session = null;
// Listens for these targets (hearing.cpp), or from now on for these instead. `tell("heard", numbers, note)` again and
// again, `tell("deaf", why)` at the end; `say(key)` is what the page's language has for a key, if it is not English.
export function listen(targets, tell, say) {
  pageText = say;
  if (session) session.expect(targets);
  else session = begin(targets, (numbers, note) => tell("heard", JSON.stringify(Array.from(numbers)), text(note)),
    (why) => { session = null; tell("deaf", text(why)); });
}
export const deaf = () => session?.stop();

// `heard(numbers, note)` with a note on the sound ("listening.clips", "listening.quiet", "listening.muted" or ""); `ended(why)` once, later, with the
// key of a reason, "" where it was asked to stop.
function begin(wanted, heard, ended) {
  let targets = wanted, edition = 0;
  let stream, context, worker, waiting, over = false;
  let lastHeard = 0, loudest = [], muted = false;

  function end(why) {
    if (over) return;
    over = true;
    clearTimeout(waiting);
    document.removeEventListener("visibilitychange", hidden);
    stream?.getTracks().forEach((track) => track.stop());
    context?.close().catch(() => {});
    worker?.terminate();
    ended(why);
  }
  const hidden = () => { if (document.hidden) end("listening.hidden"); };

  function noteOn([, sinceOnset, level, live], now) {
    loudest = loudest.filter(([at]) => now - at < looksBack);
    loudest.push([now, level]);
    const most = Math.max(...loudest.map(([, one]) => one));
    const enough = now - loudest[0][0] > 0.6 * looksBack;
    if (muted || (enough && most === 0)) return "listening.muted";
    if (most > clips) return "listening.clips";
    return enough && live < 0 && sinceOnset < 2 && most < quiet ? "listening.quiet" : "";
  }
  function told({ data }) {
    if (data === "begun") {
      clearTimeout(waiting);
      lastHeard = performance.now();
      navigator.serviceWorker?.ready.then(({ active }) => active.postMessage("hearing")); // to be kept (sw.js)
      waiting = setTimeout(() => end("listening.muted"), neverBegan);
    } else if (data === "not loaded") {
      end("listening.not_loaded");
    } else if (data.edition === edition) { // else it was heard for what is wanted no more
      clearTimeout(waiting);
      const { numbers } = data, now = performance.now();
      if (someString(numbers)) lastHeard = now;
      if (now - lastHeard > silenceEnds) end("listening.silence");
      else heard(numbers, noteOn(numbers, now));
    }
  }

  async function run() {
    await null; // whoever asked has this session by then
    if (!navigator.mediaDevices?.getUserMedia) return "listening.no_microphone";
    if (!globalThis.AudioWorkletNode || !globalThis.Worker) return "listening.no_worklet";
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: { ideal: 1 } } });
    } catch (problem) {
      return whyNot[problem.name] ?? "listening.denied";
    }
    const [track] = stream.getAudioTracks();
    if (over) track.stop();
    if (over) return "";
    waiting = setTimeout(() => end("listening.not_loaded"), neverLoaded);
    muted = track.muted;
    track.addEventListener("mute", () => { muted = true; });
    track.addEventListener("unmute", () => { muted = false; });
    track.addEventListener("ended", () => end("listening.taken"));
    document.addEventListener("visibilitychange", hidden);
    try {
      context = new AudioContext();
      worker = new Worker(WORKER);
      worker.onmessage = told;
      worker.onerror = () => end("listening.not_loaded");
      await context.audioWorklet.addModule(TAP);
    } catch {
      return "listening.not_loaded";
    }
    if (over) return "";
    const tap = new AudioWorkletNode(context, "tap", { channelCount: 1, channelCountMode: "explicit" });
    const { port1, port2 } = new MessageChannel();
    tap.port.postMessage(port1, [port1]);
    worker.postMessage({ begin: { rate: context.sampleRate, port: port2 }, targets, edition }, [port2]);
    context.createMediaStreamSource(stream).connect(tap).connect(context.destination); // silence: it makes the tap run
    context.resume().catch(() => {});
    return null;
  }
  run().catch(() => "listening.not_loaded").then((why) => { if (why !== null) end(why); });
  return {
    expect(others) { targets = others; worker?.postMessage({ targets, edition: ++edition }); },
    stop: () => end(""),
  };
}

// Whether a string is heard now, or the middle of its last pluck is less than a second ago.
function someString(numbers) {
  const last = stringsFrom + (numbers.length - stringsFrom) / 2;
  let any = numbers[3] >= 0;
  for (let at = stringsFrom; at < last; at += ofString) any ||= numbers[at] && numbers[0] - numbers[at + 4] < 1;
  return any;
}
