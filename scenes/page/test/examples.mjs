/** Small surfaces and messages for tests. */

/** A message as the server writes it. */
export function message(header, arrays = {}) {
  const buffers = {};
  let offset = 0;
  for (const [name, { array, shape }] of Object.entries(arrays)) {
    const type = array.constructor.name.replace("Array", "").toLowerCase();
    buffers[name] = { type, shape, offset };
    offset += Math.ceil(array.byteLength / 8) * 8;
  }
  let text = JSON.stringify({ ...header, buffers });
  while ((4 + new TextEncoder().encode(text).length) % 8 !== 0) text += " ";
  const head = new TextEncoder().encode(text);
  const bytes = new Uint8Array(4 + head.length + offset);
  new DataView(bytes.buffer).setUint32(0, head.length, true);
  bytes.set(head, 4);
  for (const [name, { array }] of Object.entries(arrays)) {
    const from = new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
    bytes.set(from, 4 + head.length + buffers[name].offset);
  }
  return bytes.buffer;
}

/** A closed ball around a place, its fronts outside. */
export function ball(middle, radius, rings = 12) {
  const positions = [];
  const index = [];
  const around = 2 * rings;
  for (let i = 0; i <= rings; i += 1) {
    for (let j = 0; j < around; j += 1) {
      const [polar, along] = [(Math.PI * i) / rings, (2 * Math.PI * j) / around];
      const flat = i === 0 || i === rings ? 0 : Math.sin(polar);
      positions.push(
        middle[0] + radius * flat * Math.cos(along),
        middle[1] + radius * flat * Math.sin(along),
        middle[2] + radius * Math.cos(polar),
      );
    }
  }
  for (let i = 0; i < rings; i += 1) {
    for (let j = 0; j < around; j += 1) {
      const [a, b] = [i * around + j, i * around + ((j + 1) % around)];
      if (i > 0) index.push(a, a + around, b);
      if (i < rings - 1) index.push(b, a + around, b + around);
    }
  }
  return { positions: Float32Array.from(positions), index: Uint32Array.from(index) };
}

/** Several surfaces as one; the tooth of each vertex is the number of its surface, from 11 on. */
export function joined(surfaces) {
  const positions = [];
  const index = [];
  const tooth = [];
  surfaces.forEach((surface, row) => {
    const first = positions.length / 3;
    positions.push(...surface.positions);
    index.push(...surface.index.map((vertex) => vertex + first));
    tooth.push(...new Array(surface.positions.length / 3).fill(11 + row));
  });
  return {
    positions: Float32Array.from(positions),
    index: Uint32Array.from(index),
    tooth: Uint8Array.from(tooth),
  };
}

/** Repeatable numbers from 0 to 1. */
export function numbers(seed) {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0;
    return (state >>> 0) / 2 ** 32;
  };
}
