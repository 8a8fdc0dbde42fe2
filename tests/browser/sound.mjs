// Sound for the page's microphone: strings as tests/hearing/strings_sound makes them, played where the page would hear
// them, in every browser alike.
import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { root, until } from "./site.mjs";

const folder = mkdtempSync(tmpdir() + "/counterpull-sound-");
let made = 0;
// A strum of a set-up's strings, each so many cents from its note ("-": not struck), as the path of a WAV file.
export function strum(document, tuning, cents, seconds = 3) {
  const setup = `${folder}/${++made}.json`, clip = `${folder}/${made}.wav`;
  writeFileSync(setup, document);
  execFileSync(root + ".build/tests/tests/strings_sound", [setup, tuning, cents.join(), clip, String(seconds)]);
  return clip;
}
export const bytesOf = (clip) => readFileSync(clip).toString("base64");

// A sound device that plays to nobody, for the browsers started until it is stopped.
export async function soundDevice() {
  const before = process.env.XDG_RUNTIME_DIR;
  process.env.XDG_RUNTIME_DIR = folder;
  const server = spawn("pulseaudio", ["-n", "--daemonize=no", "--exit-idle-time=-1", "--disable-shm=yes", "-L", "module-null-sink",
    "-L", "module-native-protocol-unix"], { stdio: "ignore" });
  await until(async () => existsSync(folder + "/pulse/native"), "the sound device");
  return { stop: () => {
    server.kill();
    if (before) process.env.XDG_RUNTIME_DIR = before;
    else delete process.env.XDG_RUNTIME_DIR;
  } };
}

// Run in the page: its microphone is from now on what `window.sound(bytes)` plays, again and again; null is silence. How
// often it was asked for, and the tracks given, are counted.
export const playedMicrophone = () => {
  window.microphones = [];
  MediaDevices.prototype.getUserMedia = async ({ audio }) => {
    const context = new AudioContext(), out = context.createMediaStreamDestination();
    await context.resume();
    const hush = context.createConstantSource(); // a microphone gives something where nothing sounds
    hush.offset.value = 0;
    hush.connect(out);
    hush.start();
    let playing = null;
    window.sound = async (bytes) => {
      playing?.stop();
      playing = null;
      if (!bytes) return;
      const raw = Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0)).buffer;
      playing = context.createBufferSource();
      playing.buffer = await new Promise((done, failed) => { context.decodeAudioData(raw, done, failed); });
      playing.loop = true;
      playing.connect(out);
      playing.start();
    };
    if (window.soundAtFirst) await window.sound(window.soundAtFirst);
    const [track] = out.stream.getAudioTracks();
    window.microphones.push({ audio, track });
    return out.stream;
  };
};
