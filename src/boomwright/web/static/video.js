// A short video of something that moves: one period, to be looped. The browser's own encoder makes
// the pictures small, one after the other in its own time; here they are put into a WebM file
// (Matroska, RFC 9559, on EBML, RFC 8794).

const RATE = 24; // frames a second
const FRAMES = 48;
const BITS = 5_000_000; // a second
const AHEAD = 2; // pictures the encoder may be behind

export const canFilm = () => "VideoEncoder" in window;

// draw(phase) paints the canvas; told(share) hears how far it is.
export async function filmed(canvas, draw, told) {
  const { width, height } = canvas;
  const blocks = [];
  let fault = null;
  const encoder = new VideoEncoder({
    output: (chunk) => {
      const data = new Uint8Array(chunk.byteLength);
      chunk.copyTo(data);
      blocks.push({ data, at: Math.round(chunk.timestamp / 1000), key: chunk.type === "key" });
    },
    error: (error) => {
      fault = error;
    },
  });
  encoder.configure({ codec: "vp8", width, height, bitrate: BITS, framerate: RATE, latencyMode: "realtime" });
  for (let i = 0; i < FRAMES; i += 1) {
    draw((2 * Math.PI * i) / FRAMES);
    const picture = new VideoFrame(canvas, { timestamp: (1e6 * i) / RATE, duration: 1e6 / RATE });
    encoder.encode(picture, { keyFrame: i === 0 });
    picture.close();
    told(i / FRAMES);
    // The page stays alive between pictures, and the encoder keeps up.
    do await new Promise((resolve) => setTimeout(resolve));
    while (encoder.encodeQueueSize > AHEAD && !fault);
    if (fault) throw fault;
  }
  await encoder.flush();
  encoder.close();
  return new Blob([webm(blocks, { width, height, length: (1000 * FRAMES) / RATE })], { type: "video/webm" });
}

const joined = (parts) => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

// Whole number, as few bytes as it needs.
function number(value) {
  const bytes = [];
  for (let rest = value; rest > 0 || !bytes.length; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return Uint8Array.from(bytes);
}

// An element: its mark, its size in eight bytes, what it holds.
function element(mark, ...parts) {
  const inner = joined(parts);
  const size = new Uint8Array(8);
  new DataView(size.buffer).setBigUint64(0, (1n << 56n) | BigInt(inner.length));
  return joined([number(mark), size, inner]);
}

const text = (words) => new TextEncoder().encode(words);

function float(value) {
  const bytes = new Uint8Array(8);
  new DataView(bytes.buffer).setFloat64(0, value);
  return bytes;
}

// Track 1, its time after the cluster's in milliseconds, and whether it stands alone.
function block({ data, at, key }) {
  return element(0xa3, Uint8Array.from([0x81, at >> 8, at & 255, key ? 0x80 : 0]), data);
}

export function webm(blocks, { width, height, length }) {
  const head = element(
    0x1a45dfa3,
    element(0x4286, number(1)), element(0x42f7, number(1)), element(0x42f2, number(4)), element(0x42f3, number(8)),
    element(0x4282, text("webm")), element(0x4287, number(2)), element(0x4285, number(2)),
  );
  const info = element(
    0x1549a966,
    element(0x2ad7b1, number(1_000_000)), element(0x4489, float(length)),
    element(0x4d80, text("boomwright")), element(0x5741, text("boomwright")),
  );
  const track = element(
    0xae,
    element(0xd7, number(1)), element(0x73c5, number(1)), element(0x83, number(1)), element(0x9c, number(0)),
    element(0x86, text("V_VP8")), element(0x23e383, number(Math.round(1e9 / RATE))),
    element(0xe0, element(0xb0, number(width)), element(0xba, number(height))),
  );
  const cluster = element(0x1f43b675, element(0xe7, number(0)), ...blocks.map(block));
  return joined([head, element(0x18538067, info, element(0x1654ae6b, track), cluster)]);
}
