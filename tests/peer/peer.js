// A device that is written in another language with another library: `peer.js
// ADDRESS KEY DOCUMENT` follows a document of the running server. It prints
// what the document holds whenever that changes, and {"saved": n} when the
// server has kept n of its changes. A line `{"set": {…}}` on standard input
// sets entries; the end of the input ends it.
import { createInterface } from "node:readline";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import WebSocket from "ws";
import * as Y from "yjs";

const [address, key, name] = process.argv.slice(2);
const SYNC = 0;
const [STATE, REST, UPDATE] = [0, 1, 2];
const FROM_SERVER = "the server";

const doc = new Y.Doc();
const object = doc.getMap("object");
const socket = new WebSocket(`ws://${address}/api/sync`);
socket.binaryType = "arraybuffer";

function tell(what) {
  process.stdout.write(`${JSON.stringify(what)}\n`);
}

function send(step, payload) {
  const encoder = encoding.createEncoder();
  encoding.writeVarString(encoder, name);
  encoding.writeVarUint(encoder, SYNC);
  encoding.writeVarUint(encoder, step);
  encoding.writeVarUint8Array(encoder, payload);
  socket.send(encoding.toUint8Array(encoder));
}

socket.on("open", () => {
  socket.send(JSON.stringify({ key, since: 0, speaks: 8 }));
  send(STATE, Y.encodeStateVector(doc));
});

socket.on("message", (data, binary) => {
  if (!binary) {
    const said = JSON.parse(Buffer.from(data).toString());
    if (said.saved !== undefined || said.trouble !== undefined) tell(said);
    return;
  }
  const decoder = decoding.createDecoder(new Uint8Array(data));
  const about = decoding.readVarString(decoder);
  const kind = decoding.readVarUint(decoder);
  const step = decoding.readVarUint(decoder);
  const payload = decoding.readVarUint8Array(decoder);
  if (kind !== SYNC || decoding.hasContent(decoder)) throw new Error("no message of y-sync");
  if (about !== name) return;
  if (step === STATE) send(REST, Y.encodeStateAsUpdate(doc, payload));
  else Y.applyUpdate(doc, payload, FROM_SERVER);
});

doc.on("update", (update, origin) => {
  if (origin !== FROM_SERVER) send(UPDATE, update);
  tell({ holds: object.toJSON() });
});

for await (const line of createInterface({ input: process.stdin })) {
  const { set } = JSON.parse(line);
  doc.transact(() => Object.entries(set).forEach(([path, value]) => object.set(path, value)));
}
socket.close();
