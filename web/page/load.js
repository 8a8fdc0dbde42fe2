// Brings the program: its code is fetched and compiled while its script is still on the way. Both names are put in by
// web/pack.mjs. What fails stays an unhandled rejection or an error of the script: the page listens for both.
const code = globalThis.WebAssembly && compiled();

async function compiled() {
  const fetched = async () => {
    const answer = await fetch(WASM);
    if (!answer.ok) throw new Error(WASM + ": " + answer.status);
    return answer;
  };
  try {
    return await WebAssembly.compileStreaming(await fetched());
  } catch { // a server that does not call it application/wasm, or a browser that cannot compile what is on its way
    return WebAssembly.compile(await (await fetched()).arrayBuffer());
  }
}

export function load(failed) {
  globalThis.Module.instantiateWasm = (imports, received) => {
    code.then((module) => WebAssembly.instantiate(module, imports)).then(received);
    return {}; // what is exported comes later
  };
  const script = document.createElement("script");
  script.src = PROGRAM;
  script.onerror = failed;
  document.head.append(script);
}
