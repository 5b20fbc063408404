// Whole histories, replayed by another library: each line on standard input,
// `{"updates": ["base64", …]}`, is one document. Prints what its maps and texts
// hold then, and the document itself.
import { createInterface } from "node:readline";
import * as Y from "yjs";

const TEXT = "text/";

for await (const line of createInterface({ input: process.stdin })) {
  const doc = new Y.Doc();
  for (const update of JSON.parse(line).updates) Y.applyUpdate(doc, Buffer.from(update, "base64"));
  const names = [...doc.share.keys()].filter((name) => name.startsWith(TEXT));
  const texts = Object.fromEntries(names.map((name) => [name.slice(TEXT.length), doc.getText(name).toString()]));
  const object = doc.getMap("object").toJSON();
  const whole = Buffer.from(Y.encodeStateAsUpdate(doc)).toString("base64");
  process.stdout.write(`${JSON.stringify({ object, texts, whole })}\n`);
}
