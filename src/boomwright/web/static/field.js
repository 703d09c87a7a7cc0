// A complex field on a grid: unpacked, summed over the shares asked for, made finer, painted.

const FINER = 4;

export class Field {
  constructor(grid) {
    [this.u0, this.u1, this.nu] = grid.along;
    [this.v0, this.v1, this.nv] = grid.across;
    this.full = grid.full_colour;
    const bytes = Uint8Array.from(atob(grid.values), (letter) => letter.charCodeAt(0));
    const flat = new Float32Array(bytes.buffer);
    const size = this.nu * this.nv;
    this.shares = Array.from({ length: flat.length / (2 * size) }, (_, i) => flat.subarray(2 * i * size, 2 * (i + 1) * size));
    this.width = (this.nu - 1) * FINER + 1;
    this.height = (this.nv - 1) * FINER + 1;
  }

  // Add up the shares that are shown.
  sum(shown) {
    const size = this.nu * this.nv;
    this.re = new Float32Array(size);
    this.im = new Float32Array(size);
    this.shares.forEach((share, number) => {
      if (!shown(number)) return;
      for (let i = 0; i < size; i += 1) {
        this.re[i] += share[2 * i];
        this.im[i] += share[2 * i + 1];
      }
    });
    this.fineRe = finer(this.re, this.nu, this.nv);
    this.fineIm = finer(this.im, this.nu, this.nv);
  }

  // Colour deepens with the root of the strength, so that the wave is seen far out too.
  paint(pixels, phase, plus, minus) {
    const { fineRe, fineIm, width, height } = this;
    const c = Math.cos(phase) / this.full;
    const s = Math.sin(phase) / this.full;
    for (let row = 0; row < height; row += 1) {
      let from = (height - 1 - row) * width;
      let to = row * width;
      for (let column = 0; column < width; column += 1) {
        const value = fineRe[from] * c - fineIm[from] * s;
        const strength = value < 0 ? -value : value;
        const depth = strength >= 1 ? 255 : (255 * Math.sqrt(strength)) | 0;
        pixels[to] = (value < 0 ? minus : plus) | (depth << 24);
        from += 1;
        to += 1;
      }
    }
  }

  // Amplitude and phase at a place, between the points of the grid.
  at(u, v) {
    const x = Math.min(Math.max(((u - this.u0) / (this.u1 - this.u0)) * (this.nu - 1), 0), this.nu - 1.0001);
    const y = Math.min(Math.max(((v - this.v0) / (this.v1 - this.v0)) * (this.nv - 1), 0), this.nv - 1.0001);
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [a, b] = [x - i, y - j];
    const mix = (values) => {
      const k = j * this.nu + i;
      const low = values[k] * (1 - a) + values[k + 1] * a;
      const high = values[k + this.nu] * (1 - a) + values[k + this.nu + 1] * a;
      return low * (1 - b) + high * b;
    };
    const [re, im] = [mix(this.re), mix(this.im)];
    return { strength: Math.hypot(re, im), phase: (Math.atan2(im, re) * 180) / Math.PI };
  }
}

// Cubic interpolation through the points, first along rows, then along columns.
function finer(values, nu, nv) {
  const width = (nu - 1) * FINER + 1;
  const rows = new Float32Array(width * nv);
  for (let j = 0; j < nv; j += 1) stretch(values, j * nu, 1, nu, rows, j * width, 1);
  const height = (nv - 1) * FINER + 1;
  const fine = new Float32Array(width * height);
  for (let i = 0; i < width; i += 1) stretch(rows, i, width, nv, fine, i, width);
  return fine;
}

function stretch(from, start, step, count, to, begin, stride) {
  const at = (i) => from[start + step * Math.min(Math.max(i, 0), count - 1)];
  for (let i = 0; i < count - 1; i += 1) {
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    for (let k = 0; k < FINER; k += 1) {
      const t = k / FINER;
      to[begin + stride * (i * FINER + k)] =
        b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
    }
  }
  to[begin + stride * (count - 1) * FINER] = at(count - 1);
}
