/**
 * Binary messages of the server: a length, a JSON header, and buffers that are used where they lie.
 *
 * uint32 little-endian length L of the header, the header, then the buffers; 4 + L is a multiple of
 * 8, and so is every buffer's offset, counted from the end of the header.
 */

const TYPES = {
  float32: Float32Array,
  uint32: Uint32Array,
  uint16: Uint16Array,
  uint8: Uint8Array,
};

/**
 * Read a message without copying its buffers.
 *
 * @param {ArrayBuffer} message as it came.
 * @returns {{header: object, buffers: Object<string, Float32Array|Uint32Array|Uint16Array|Uint8Array>}}
 * @throws {Error} where the message is cut short or names a type that is not known.
 */
export function decode(message) {
  if (message.byteLength < 4) {
    throw new Error(`message of ${message.byteLength} bytes: too short for the length of a header`);
  }
  const length = new DataView(message).getUint32(0, true);
  const start = 4 + length;
  if (start > message.byteLength) {
    throw new Error(`message of ${message.byteLength} bytes: its header alone has ${length}`);
  }
  const header = JSON.parse(new TextDecoder().decode(new Uint8Array(message, 4, length)));
  const buffers = {};
  for (const [name, { type, shape, offset }] of Object.entries(header.buffers ?? {})) {
    const kind = TYPES[type];
    if (!kind) {
      throw new Error(`buffer ${name}: type ${type} is none of ${Object.keys(TYPES).join(", ")}`);
    }
    const count = shape.reduce((product, size) => product * size, 1);
    if (start + offset + count * kind.BYTES_PER_ELEMENT > message.byteLength) {
      throw new Error(`buffer ${name}: runs past the end of the message`);
    }
    buffers[name] = new kind(message, start + offset, count);
  }
  return { header, buffers };
}
