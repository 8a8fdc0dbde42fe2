// Beside the sound: hands on what the microphone gives, a piece at a time, to the port that it is given.
const length = 1024;

class Tap extends AudioWorkletProcessor {
  constructor() {
    super();
    this.piece = new Float32Array(length);
    this.filled = 0;
    this.port.onmessage = ({ data }) => { this.out = data; };
  }
  process([[samples = []]]) {
    for (const sample of samples) {
      this.piece[this.filled++] = sample;
      if (this.filled < length) continue;
      this.out?.postMessage(this.piece, [this.piece.buffer]);
      this.piece = new Float32Array(length);
      this.filled = 0;
    }
    return true;
  }
}
registerProcessor("tap", Tap);
