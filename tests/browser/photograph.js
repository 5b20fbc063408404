// A photograph as a camera writes it, and the file that is kept of one.

import assert from "node:assert/strict";

// A sheet on a dark table, in pixels of the picture, its quarters of these colours:
// upper left, upper right, lower right, lower left.
export const PICTURE = [1200, 900];
export const SHEET = [150, 100, 1050, 800];
export const QUARTERS = ["#c04040", "#40a060", "#4060c0", "#d0b040"];

/**
 * The picture as a file, so many times as large, with Exif that tells the camera and the
 * place.
 */
export async function photograph(page, larger = 1) {
  const drawn = await page.evaluate(
    async ({ size, sheet: [left, top, right, bottom], quarters }) => {
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = size;
      const on = canvas.getContext("2d");
      on.fillStyle = "#1c2422";
      on.fillRect(0, 0, ...size);
      const [x, y] = [(left + right) / 2, (top + bottom) / 2];
      const corners = [[left, top], [x, top], [x, y], [left, y]];
      corners.forEach(([across, down], number) => {
        on.fillStyle = quarters[number];
        on.fillRect(across, down, x - left, y - top);
      });
      return canvas.toDataURL("image/jpeg", 0.92).split(",")[1];
    },
    { size: PICTURE.map((side) => side * larger), sheet: SHEET.map((side) => side * larger), quarters: QUARTERS },
  );
  const plain = Buffer.from(drawn, "base64");
  return Buffer.concat([plain.subarray(0, 2), EXIF, plain.subarray(2)]);
}

// A segment APP1 (Exif 2.32, 4.7.2): big-endian TIFF with the maker of the camera and a
// GPS directory that tells the hemisphere and 54 degrees of latitude.
const EXIF = (() => {
  const entry = (tag, type, count, value) => {
    const bytes = Buffer.alloc(12);
    bytes.writeUInt16BE(tag, 0);
    bytes.writeUInt16BE(type, 2);
    bytes.writeUInt32BE(count, 4);
    if (typeof value === "number") bytes.writeUInt32BE(value, 8);
    else bytes.write(value, 8, "ascii");
    return bytes;
  };
  const directory = (...entries) =>
    Buffer.concat([Buffer.from([0, entries.length]), ...entries, Buffer.alloc(4)]);
  const maker = entry(0x010f, 2, 4, "Dry\0");
  const first = directory(maker, entry(0x8825, 4, 1, 8 + 30));
  const place = directory(entry(0x0001, 2, 2, "N\0"), entry(0x0002, 5, 3, 8 + 30 + 30));
  const latitude = Buffer.alloc(24);
  [54, 1, 5, 1, 0, 1].forEach((part, at) => latitude.writeUInt32BE(part, 4 * at));
  const tiff = Buffer.concat([Buffer.from("MM\0*\0\0\0\b", "latin1"), first, place, latitude]);
  const body = Buffer.concat([Buffer.from("Exif\0\0", "latin1"), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
})();

/** The file of the only photograph that is kept. */
export const kept = async (page) => {
  const bytes = await page.evaluate(
    () =>
      new Promise((done, failed) => {
        const request = indexedDB.open("foldwright-photographs");
        request.onerror = () => failed(request.error);
        request.onsuccess = () => {
          const all = request.result.transaction("photographs").objectStore("photographs").getAll();
          all.onsuccess = () => done((request.result.close(), all.result.map((file) => [...file])));
        };
      }),
  );
  assert.equal(bytes.length, 1);
  return Buffer.from(bytes[0]);
};
