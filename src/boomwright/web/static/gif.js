// A moving GIF from painted frames (CompuServe, GIF89a), looped without end.

export class Gif {
  constructor(width, height, delay) {
    [this.width, this.height, this.delay] = [width, height, delay];
    this.bytes = [];
  }

  // Colours counted over a few frames, four bits a channel; the most frequent 255 are kept.
  palette(frames) {
    const counts = new Map();
    for (const { data } of frames) {
      for (let i = 0; i < data.length; i += 4) {
        const key = ((data[i] >> 3) << 10) | ((data[i + 1] >> 3) << 5) | (data[i + 2] >> 3);
        counts.set(key, (counts.get(key) ?? 0) + 1);
      }
    }
    const kept = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 255).map(([key]) => key);
    this.table = kept.map((key) => [key >> 10, (key >> 5) & 31, key & 31]);
    this.nearest = new Map(kept.map((key, i) => [key, i]));
    this.head();
  }

  index(key) {
    const known = this.nearest.get(key);
    if (known !== undefined) return known;
    const [r, g, b] = [key >> 10, (key >> 5) & 31, key & 31];
    let [best, least] = [0, Infinity];
    this.table.forEach(([x, y, z], i) => {
      const far = (x - r) ** 2 + (y - g) ** 2 + (z - b) ** 2;
      if (far < least) [best, least] = [i, far];
    });
    this.nearest.set(key, best);
    return best;
  }

  word(value) {
    this.bytes.push(value & 255, value >> 8);
  }

  text(letters) {
    for (const letter of letters) this.bytes.push(letter.charCodeAt(0));
  }

  head() {
    this.text("GIF89a");
    this.word(this.width);
    this.word(this.height);
    this.bytes.push(0xf7, 0, 0);
    for (let i = 0; i < 256; i += 1) {
      const [r, g, b] = this.table[i] ?? [0, 0, 0];
      this.bytes.push((r << 3) | (r >> 2), (g << 3) | (g >> 2), (b << 3) | (b >> 2));
    }
    this.bytes.push(0x21, 0xff, 11);
    this.text("NETSCAPE2.0");
    this.bytes.push(3, 1, 0, 0, 0);
  }

  add({ data }) {
    this.bytes.push(0x21, 0xf9, 4, 4);
    this.word(this.delay);
    this.bytes.push(0, 0, 0x2c);
    for (const value of [0, 0, this.width, this.height]) this.word(value);
    this.bytes.push(0, 8);
    const indices = new Uint8Array(this.width * this.height);
    for (let i = 0, k = 0; i < data.length; i += 4, k += 1) {
      indices[k] = this.index(((data[i] >> 3) << 10) | ((data[i + 1] >> 3) << 5) | (data[i + 2] >> 3));
    }
    this.packed(indices);
  }

  // Variable-length codes of up to 12 bits, in blocks of 255 bytes.
  packed(indices) {
    let block = [];
    let [store, filled] = [0, 0];
    const put = (code, width) => {
      store |= code << filled;
      filled += width;
      while (filled >= 8) {
        block.push(store & 255);
        store >>>= 8;
        filled -= 8;
        if (block.length === 255) flush();
      }
    };
    const flush = () => {
      if (block.length) this.bytes.push(block.length, ...block);
      block = [];
    };
    let [width, next] = [9, 258];
    let codes = new Map();
    put(256, width);
    let prefix = indices[0];
    for (let i = 1; i < indices.length; i += 1) {
      const key = (prefix << 8) | indices[i];
      const known = codes.get(key);
      if (known !== undefined) {
        prefix = known;
        continue;
      }
      put(prefix, width);
      if (next < 4096) {
        codes.set(key, next);
        if (next === 1 << width && width < 12) width += 1;
        next += 1;
      } else {
        put(256, width);
        codes = new Map();
        [width, next] = [9, 258];
      }
      prefix = indices[i];
    }
    put(prefix, width);
    put(257, width);
    if (filled) block.push(store & 255);
    flush();
    this.bytes.push(0);
  }

  blob() {
    this.bytes.push(0x3b);
    return new Blob([Uint8Array.from(this.bytes)], { type: "image/gif" });
  }
}
