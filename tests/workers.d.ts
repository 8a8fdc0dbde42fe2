// The same for workers and the tap on the sound (globals.d.ts).
declare const HEARING: string, VERSION: string;
declare const FILES: string[], LATER: Record<string, string[]>;
declare function registerProcessor(name: string, processor: any): void;
declare class AudioWorkletProcessor { port: MessagePort }
