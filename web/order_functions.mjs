// Puts the functions of a WebAssembly program in an order in which they compress better; what it does stays the same.
// The compressor finds more to repeat where functions of the same type stand together, alike ones next to each other.
const call = 0x10, refFunc = 0xd2; // the instructions that name a function
const sections = { import: 2, function: 3, export: 7, start: 8, element: 9, code: 10 };
const oneByteNumbers = 128; // so many numbers take one byte, which the functions called most are to have

class Reader {
  constructor(data) { this.data = data; this.at = 0; }
  get done() { return this.at >= this.data.length; }
  byte() { return this.data[this.at++]; }
  number() {
    let value = 0, shift = 0, byte;
    do {
      byte = this.byte();
      value |= (byte & 127) << shift;
      shift += 7;
    } while (byte & 128);
    return value >>> 0;
  }
  bytes(length) { return this.data.subarray(this.at, this.at += length); }
  skipNumbers(count) { for (; count > 0; --count) while (this.byte() & 128); }
  list(read) { return Array.from({ length: this.number() }, read); }
}

function encoded(value) {
  const bytes = [];
  for (; value > 127; value >>>= 7) bytes.push(value & 127 | 128);
  return Buffer.from([...bytes, value]);
}
const counted = (list) => Buffer.concat([encoded(list.length), ...list]);

function importedFunctions(reader) {
  const limits = () => reader.skipNumbers(reader.byte() & 1 ? 2 : 1);
  const kinds = [() => { reader.number(); return 1; }, () => { reader.byte(); limits(); return 0; },
    () => { limits(); return 0; }, () => { reader.bytes(2); return 0; }]; // function, table, memory, global
  return reader.list(() => {
    reader.bytes(reader.number());
    reader.bytes(reader.number());
    return kinds[reader.byte()]();
  }).reduce((sum, one) => sum + one, 0);
}

// Past what an instruction has beside its name (WebAssembly 2.0, 5.4), without vectors.
function skipRest(code, reader) {
  if (code >= 0x02 && code <= 0x04) reader.skipNumbers(1); // block, loop, if
  else if (code === 0x0c || code === 0x0d || (code >= 0x20 && code <= 0x26)) reader.skipNumbers(1); // branches, variables, tables
  else if (code === 0x0e) reader.skipNumbers(reader.number() + 1);
  else if (code === 0x11 || (code >= 0x28 && code <= 0x3e)) reader.skipNumbers(2); // call_indirect, memory
  else if (code === 0x1c) reader.bytes(reader.number());
  else if (code === 0x3f || code === 0x40 || code === 0xd0) reader.bytes(1);
  else if (code === 0x41 || code === 0x42) reader.skipNumbers(1);
  else if (code === 0x43) reader.bytes(4);
  else if (code === 0x44) reader.bytes(8);
  else if (code === 0xfc) reader.skipNumbers([0, 0, 0, 0, 0, 0, 0, 0, 2, 1, 2, 1, 2, 1, 2, 1, 1, 1][reader.number()]);
  else if (!(code <= 0x01 || code === 0x05 || code === 0x0b || code === 0x0f || code === 0x1a || code === 0x1b ||
    (code >= 0x45 && code <= 0xc4) || code === 0xd1)) throw new Error(`an instruction that is not known here: ${code}`);
}

// A function's code in pieces: bytes, and between them the numbers of the functions that it names.
function pieces(body) {
  const reader = new Reader(body), found = [];
  let from = 0;
  reader.list(() => { reader.skipNumbers(1); reader.byte(); }); // its variables
  while (!reader.done) {
    const code = reader.byte();
    if (code !== call && code !== refFunc) {
      skipRest(code, reader);
      continue;
    }
    found.push(body.subarray(from, reader.at), reader.number());
    from = reader.at;
  }
  return [...found, body.subarray(from)];
}

function read(program) {
  const reader = new Reader(program), all = [];
  reader.bytes(8);
  while (!reader.done) all.push({ id: reader.byte(), data: reader.bytes(reader.number()) });
  const inside = (id) => new Reader(all.find((section) => section.id === id).data);
  const [types, code] = [inside(sections.function), inside(sections.code)];
  const functions = types.list(() => ({ type: types.number(), calls: 0 }));
  code.list((_, index) => { functions[index].body = code.bytes(code.number()); });
  const imported = importedFunctions(inside(sections.import));
  functions.forEach((one, index) => { one.number = imported + index; one.pieces = pieces(one.body); });
  for (const one of functions)
    for (const piece of one.pieces)
      if (piece >= imported) functions[piece - imported].calls += 1;
  return { all, functions, imported };
}

export function orderFunctions(program) {
  const { all, functions, imported } = read(program);
  const byCalls = [...functions].sort((a, b) => b.calls - a.calls || a.number - b.number);
  const most = Math.max(0, oneByteNumbers - imported);
  const ordered = [...byCalls.slice(0, most),
    ...byCalls.slice(most).sort((a, b) => a.type - b.type || Buffer.compare(a.body, b.body) || a.number - b.number)];
  const numbers = new Map(ordered.map((one, index) => [one.number, imported + index]));
  const renumbered = (number) => encoded(numbers.get(number) ?? number);
  const body = (one) => Buffer.concat(one.pieces.map((piece) => typeof piece === "number" ? renumbered(piece) : piece));
  const rewritten = {
    [sections.function]: () => counted(ordered.map((one) => encoded(one.type))),
    [sections.code]: () => counted(ordered.map(body).map((bytes) => Buffer.concat([encoded(bytes.length), bytes]))),
    [sections.export]: (reader) => counted(reader.list(() => {
      const from = reader.at;
      reader.bytes(reader.number());
      const isFunction = reader.byte() === 0, head = reader.data.subarray(from, reader.at), number = reader.number();
      return Buffer.concat([head, isFunction ? renumbered(number) : encoded(number)]);
    })),
    [sections.start]: (reader) => renumbered(reader.number()),
    [sections.element]: (reader) => counted(reader.list(() => {
      const from = reader.at;
      if (reader.byte() !== 0 || reader.byte() !== 0x41) throw new Error("a table filled in a way that is not known here");
      reader.skipNumbers(1);
      reader.byte();
      return Buffer.concat([reader.data.subarray(from, reader.at), counted(reader.list(() => renumbered(reader.number())))]);
    })),
  };
  return Buffer.concat([program.subarray(0, 8), ...all.map(({ id, data }) => {
    const section = rewritten[id] ? rewritten[id](new Reader(data)) : data;
    return Buffer.concat([Buffer.from([id]), encoded(section.length), section]);
  })]);
}
