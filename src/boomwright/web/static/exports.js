// Pictures that leave the page: SVG and PNG of any of them, a GIF or a video of those that move.

import { colourText, coloured } from "/static/colours.js";
import { Gif } from "/static/gif.js";
import { canFilm, filmed } from "/static/video.js";

const WIDE = 1600; // pixels of a PNG
const SLIDE = 800; // and of a GIF
const FRAMES = 24;
const VIDEO = 800; // and of a video

export function save(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 20_000);
}

const svgText = (node) => coloured(new XMLSerializer().serializeToString(node));
const svgBlob = (text) => new Blob([text], { type: "image/svg+xml" });

function loaded(text) {
  return new Promise((resolve, reject) => {
    const image = new Image();
    image.onload = () => {
      URL.revokeObjectURL(image.src);
      resolve(image);
    };
    image.onerror = () => reject(new Error("the picture could not be drawn"));
    image.src = URL.createObjectURL(svgBlob(text));
  });
}

const png = (canvas) => new Promise((resolve) => canvas.toBlob(resolve, "image/png"));

function sheet(width, height) {
  const canvas = document.createElement("canvas");
  // Even, as videos want it.
  [canvas.width, canvas.height] = [2 * Math.round(width / 2), 2 * Math.round(height / 2)];
  const context = canvas.getContext("2d", { willReadFrequently: true });
  context.fillStyle = colourText("paper");
  context.fillRect(0, 0, canvas.width, canvas.height);
  return { canvas, context };
}

export async function svgToPng(svg) {
  const { width, height } = svg.viewBox.baseVal;
  const { canvas, context } = sheet(WIDE, (WIDE * height) / width);
  context.drawImage(await loaded(svgText(svg)), 0, 0, canvas.width, canvas.height);
  return png(canvas);
}

// A moving GIF of a picture that is drawn anew for each frame; show(i) draws it.
export async function svgToGif(svg, frames, show) {
  const { width, height } = svg.viewBox.baseVal;
  const { canvas, context } = sheet(SLIDE, (SLIDE * height) / width);
  const gif = new Gif(canvas.width, canvas.height, 12);
  const shot = async (i) => {
    show(i);
    context.fillStyle = colourText("paper");
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(await loaded(svgText(svg)), 0, 0, canvas.width, canvas.height);
    return context.getImageData(0, 0, canvas.width, canvas.height);
  };
  gif.palette([await shot(0), await shot(frames - 1)]);
  for (let i = 0; i < frames; i += 1) gif.add(await shot(i));
  return gif.blob();
}

// Buttons of the drawn pictures on every sheet.
export function savePictures(root) {
  root.addEventListener("click", async (event) => {
    const button = event.target.closest("button[data-save]");
    if (!button) return;
    const figure = button.closest("figure, .plan");
    const svg = figure?.querySelector(".drawing svg");
    if (!svg) return;
    const name = figure.dataset.picture ?? svg.dataset.figure ?? "picture";
    if (button.dataset.save === "svg") save(svgBlob(svgText(svg)), `${name}.svg`);
    else save(await svgToPng(svg), `${name}.png`);
  });
}

export class Exports {
  constructor({ views, solid, clock }) {
    Object.assign(this, { views, solid, clock });
    const menu = document.getElementById("export");
    for (const button of menu.querySelectorAll("[data-as=video]")) button.hidden = !canFilm();
    menu.addEventListener("click", async (event) => {
      const button = event.target.closest("[data-export]");
      if (!button) return;
      const word = button.textContent;
      button.disabled = true;
      button.textContent = "Writing …";
      try {
        const kind = button.dataset.as;
        const name = { level: "wave-from-above", upright: "wave-cut", solid: "pattern-in-space" }[button.dataset.export];
        const told = (share) => {
          button.textContent = `Writing, ${Math.round(100 * share)} %`;
        };
        save(await this.make(button.dataset.export, kind, told), `${name}.${kind === "video" ? "webm" : kind}`);
      } finally {
        button.disabled = false;
        button.textContent = word;
      }
      menu.open = false;
    });
  }

  make(which, kind, told) {
    if (kind === "gif") return this.gif(which);
    if (kind === "video") return this.video(which, told);
    return which === "solid" ? this.still(kind) : this.wave(which, kind);
  }

  async wave(which, kind) {
    const view = this.views[which];
    const { width, height } = view.svg.viewBox.baseVal;
    if (kind === "png") {
      const frame = await this.composer(which, WIDE);
      frame.draw(this.clock.phase);
      return png(frame.canvas);
    }
    const whole = view.svg.cloneNode(true);
    whole.setAttribute("width", width);
    whole.setAttribute("height", height);
    const { x, y, width: wide, height: tall } = view.plot;
    // Put in as text: as a part of this page its picture would be fetched.
    const painted = `<image x="${x}" y="${y}" width="${wide}" height="${tall}" preserveAspectRatio="none" href="${view.canvas.toDataURL()}"/>`;
    const marks = svgText(view.overlay);
    return svgBlob(svgText(whole).replace(/<\/svg>\s*$/, `${painted}${marks}</svg>`));
  }

  // Something that can be drawn at any moment of the period.
  async composer(which, wide) {
    if (which === "solid") {
      const { solid } = this;
      const { canvas, context } = sheet(wide, wide * 0.7);
      const turn = solid.turn;
      return {
        canvas,
        context,
        draw: (phase) => {
          context.fillStyle = colourText("paper");
          context.fillRect(0, 0, canvas.width, canvas.height);
          solid.turn = turn + (phase * 180) / Math.PI;
          solid.draw(context, canvas.width, canvas.height);
          solid.turn = turn;
          solid.paint();
        },
      };
    }
    const view = this.views[which];
    const { width, height } = view.svg.viewBox.baseVal;
    const { canvas, context } = sheet(wide, (wide * height) / width);
    // Drawn once: an SVG picture is worked out anew each time it is drawn.
    const below = flat(await loaded(svgText(view.svg)), canvas);
    const above = flat(await loaded(svgText(sized(view.overlay, width, height))), canvas);
    const scale = canvas.width / width;
    const { x, y, width: w, height: h } = view.plot;
    context.imageSmoothingQuality = "high";
    return {
      canvas,
      context,
      draw: (phase) => {
        view.field.paint(view.pixels, phase, view.plus, view.minus);
        view.context.putImageData(view.image, 0, 0);
        context.drawImage(below, 0, 0);
        context.drawImage(view.canvas, x * scale, y * scale, w * scale, h * scale);
        context.drawImage(above, 0, 0);
      },
    };
  }

  async still(kind) {
    if (kind === "png") {
      const frame = await this.composer("solid", WIDE);
      frame.draw(0);
      return png(frame.canvas);
    }
    return svgBlob(solidSvg(this.solid));
  }

  async video(which, told) {
    const frame = await this.composer(which, VIDEO);
    const film = await filmed(frame.canvas, frame.draw, told);
    this.clock.set(this.clock.phase);
    return film;
  }

  async gif(which) {
    const frame = await this.composer(which, SLIDE);
    const { canvas, context } = frame;
    const gif = new Gif(canvas.width, canvas.height, 8);
    const shot = (i) => {
      frame.draw((2 * Math.PI * i) / FRAMES);
      return context.getImageData(0, 0, canvas.width, canvas.height);
    };
    gif.palette([0, FRAMES / 4, FRAMES / 2].map(shot));
    for (let i = 0; i < FRAMES; i += 1) {
      gif.add(shot(i));
      // The page stays alive between frames.
      await new Promise((resolve) => setTimeout(resolve));
    }
    this.clock.set(this.clock.phase);
    return gif.blob();
  }
}

function flat(image, { width, height }) {
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext("2d").drawImage(image, 0, 0, width, height);
  return canvas;
}

function sized(overlay, width, height) {
  const whole = overlay.cloneNode(true);
  whole.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  whole.setAttribute("width", width);
  whole.setAttribute("height", height);
  return whole;
}

// The same faces as painted, as polygons.
function solidSvg(solid) {
  const [width, height] = [900, 630];
  const drawn = [];
  const path = { beginPath: () => drawn.push({ points: [] }), closePath: () => {} };
  const record = {
    ...path,
    moveTo: (x, y) => drawn.at(-1).points.push([x, y]),
    lineTo: (x, y) => drawn.at(-1).points.push([x, y]),
    fill() {
      Object.assign(drawn.at(-1), { fill: this.fillStyle, alpha: this.globalAlpha });
    },
    stroke() {
      if (!drawn.at(-1).fill) Object.assign(drawn.at(-1), { stroke: this.strokeStyle, wide: this.lineWidth });
    },
  };
  solid.draw(record, width, height);
  solid.paint();
  const body = drawn.map(({ points, fill, alpha, stroke, wide }) => {
    const list = points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
    return fill
      ? `<polygon points="${list}" fill="${fill}" fill-opacity="${alpha}"/>`
      : `<polyline points="${list}" fill="none" stroke="${stroke}" stroke-width="${wide}"/>`;
  });
  const paper = colourText("paper");
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}"><title>Pattern in space</title><rect width="${width}" height="${height}" fill="${paper}"/>${body.join("")}</svg>`;
}
