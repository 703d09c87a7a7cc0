// Reading exact values off a shaded map, by pointer or by arrow keys, from the data drawn into it.

const SVG = "http://www.w3.org/2000/svg";
const fixed = (value, digits) => value.toFixed(digits).replace("-", "−");
const list = (text) => JSON.parse(text);
// Impedance of free space, ohm: the power density of the plane wave that is as strong.
const ETA = 376.73;

function nearest(values, wanted) {
  let best = 0;
  values.forEach((value, i) => {
    if (Math.abs(value - wanted) < Math.abs(values[best] - wanted)) best = i;
  });
  return best;
}

// Each kind of map: its two running values, where a pair lies, which pair lies at a place, its words.
function readMap(svg) {
  if (svg.dataset.heights) return heightMap(svg);
  if (svg.dataset.mapRadius && svg.dataset.gains) return stationMap(svg);
  if (svg.dataset.shares) return peopleMap(svg);
  if (svg.dataset.stepHeights) return lobeSteps(svg);
  return null;
}

function panelOf(svg) {
  const data = svg.querySelector("g[data-x-low]").dataset;
  const straight = (low, high, start, end) => ({
    to: (value) => start + ((value - low) / (high - low)) * (end - start),
    from: (place) => low + ((place - start) / (end - start)) * (high - low),
  });
  return {
    x: straight(...[data.xLow, data.xHigh, data.xStart, data.xEnd].map(Number)),
    y: straight(...[data.yLow, data.yHigh, data.yStart, data.yEnd].map(Number)),
  };
}

function straightMap(svg, xs, ys, words) {
  const unit = +svg.dataset.xUnit || 1;
  const panel = panelOf(svg);
  const scale = svg.dataset.heights ? 1 : unit;
  return {
    xs, ys, words,
    place: (i, j) => [panel.x.to(xs[i] / unit), panel.y.to(ys[j] / scale)],
    locate: (x, y) => [nearest(xs, panel.x.from(x) * unit), nearest(ys, panel.y.from(y) * scale)],
    start: [0, 0],
  };
}

function length(value, unit) {
  return unit === 1 ? `${fixed(value, 1)} m` : `${fixed(value / unit, 1)} ft`;
}

function heightMap(svg) {
  const unit = +svg.dataset.xUnit || 1;
  const [heights, angles, gains] = [svg.dataset.heights, svg.dataset.elevations, svg.dataset.gains].map(list);
  return straightMap(svg, heights, angles, (i, j) => `boom at ${length(heights[i], unit)} · elevation ${fixed(angles[j], 0)}° · ${fixed(gains[i][j], 1)} dBi`);
}

function peopleMap(svg) {
  const unit = +svg.dataset.xUnit || 1;
  const [across, up, shares] = [svg.dataset.across, svg.dataset.up, svg.dataset.shares].map(list);
  const fields = svg.dataset.electric && [svg.dataset.electric, svg.dataset.magnetic].map(list);
  const strength = (i, j) => {
    if (!fields) return "";
    const [e, h] = fields.map((grid) => grid[j][i]);
    return ` · E ${fixed(e, 1)} V/m · H ${fixed(h, 3)} A/m · S ${fixed(Math.max((e * e) / ETA, h * h * ETA), 3)} W/m²`;
  };
  const second = svg.dataset.figure === "people-level" ? "to the left" : "above ground";
  const map = straightMap(svg, across, up, (i, j) => {
    const share = shares[j][i];
    const used = share < 0 ? `within ${svg.dataset.nearest} of a wire` : `${fixed(100 * share, 2)} % of the limit${strength(i, j)}`;
    return `${length(across[i], unit)} along the heading · ${length(up[j], unit)} ${second} · ${used}`;
  });
  return { ...map, start: [Math.floor(across.length / 2), 0] };
}

function stationMap(svg) {
  const data = svg.dataset;
  const [cx, cy, radius, rim] = [data.mapX, data.mapY, data.mapRadius, data.mapRim].map(Number);
  const [bearings, distances, angles, hops, gains] = [data.bearings, data.distances, data.elevations, data.hops, data.gains].map(list);
  const far = (km) => (data.distanceUnit === "mi" ? `${fixed(km / 1.609344, 0)} mi` : `${fixed(km, 0)} km`);
  const round = (i) => ((i % bearings.length) + bearings.length) % bearings.length;
  return {
    xs: bearings, ys: distances, round: true, start: [0, 0],
    place: (i, j) => {
      const turn = (bearings[i] * Math.PI) / 180;
      const r = (radius * distances[j] * 1e3) / rim;
      return [cx + r * Math.sin(turn), cy - r * Math.cos(turn)];
    },
    locate: (x, y) => {
      const bearing = ((Math.atan2(x - cx, cy - y) * 180) / Math.PI + 360) % 360;
      const step = 360 / bearings.length;
      return [round(Math.round(bearing / step)), nearest(distances, (Math.hypot(x - cx, y - cy) / radius) * (rim / 1e3))];
    },
    words: (i, j) => `bearing ${fixed(bearings[i], 0)}° · ${far(distances[j])} · ${hops[j]} hop${hops[j] > 1 ? "s" : ""} at ${fixed(angles[j], 1)}° · ${fixed(gains[i][j], 1)} dBi`,
  };
}

// Elevation patterns side by side: left and right change the height, up and down the elevation.
function lobeSteps(svg) {
  const data = svg.dataset;
  const unit = +data.xUnit || 1;
  const [heights, angles, gains, corners] = [data.stepHeights, data.elevations, data.gains, data.corners].map(list);
  const [radius, range, top] = [data.radius, data.range, data.topDbi].map(Number);
  return {
    xs: heights, ys: angles, start: [0, nearest(gains[0], Math.max(...gains[0]))],
    place: (i, j) => {
      const r = radius * Math.max(0, 1 - (top - gains[i][j]) / range);
      const turn = (angles[j] * Math.PI) / 180;
      return [corners[i][0] + r * Math.cos(turn), corners[i][1] - r * Math.sin(turn)];
    },
    locate: (x, y) => {
      let best = 0;
      const away = ([cx, cy]) => Math.hypot(x - cx - radius / 2, y - cy + radius / 2);
      corners.forEach((corner, i) => {
        if (away(corner) < away(corners[best])) best = i;
      });
      const [cx, cy] = corners[best];
      return [best, nearest(angles, (Math.atan2(cy - y, Math.max(x - cx, 0)) * 180) / Math.PI)];
    },
    words: (i, j) => `boom at ${length(heights[i], unit)} · elevation ${fixed(angles[j], 1)}° · ${fixed(gains[i][j], 1)} dBi`,
  };
}

export function gridReading(picture) {
  const svg = picture.querySelector(".drawing svg");
  const map = svg && readMap(svg);
  if (!map) return false;
  const area = picture.querySelector(".reader");
  const output = picture.querySelector(".reading");
  let at = null;
  let layer = null;

  const leave = () => {
    layer?.remove();
    output.textContent = "";
    at = null;
  };
  const show = (i, j) => {
    const columns = map.xs.length;
    at = [map.round ? ((i % columns) + columns) % columns : Math.max(0, Math.min(columns - 1, i)), Math.max(0, Math.min(map.ys.length - 1, j))];
    output.textContent = map.words(...at);
    layer?.remove();
    layer = document.createElementNS(SVG, "svg");
    layer.setAttribute("class", "cursor");
    layer.setAttribute("aria-hidden", "true");
    layer.setAttribute("viewBox", svg.getAttribute("viewBox"));
    const mark = document.createElementNS(SVG, "circle");
    const [x, y] = map.place(...at);
    for (const [name, value] of Object.entries({ cx: x, cy: y, r: 5 })) mark.setAttribute(name, value);
    layer.append(mark);
    area.append(layer);
  };
  const point = (event) => {
    const box = svg.getBoundingClientRect();
    const unit = svg.viewBox.baseVal.width / box.width;
    show(...map.locate((event.clientX - box.left) * unit, (event.clientY - box.top) * unit));
  };
  area.addEventListener("pointermove", point);
  area.addEventListener("pointerdown", point);
  area.addEventListener("pointerleave", () => document.activeElement !== area && leave());
  area.addEventListener("blur", leave);
  area.addEventListener("keydown", (event) => {
    const step = event.shiftKey ? 5 : 1;
    const move = { ArrowRight: [step, 0], ArrowLeft: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[event.key];
    if (event.key === "Escape") leave();
    if (!move) return;
    event.preventDefault();
    const [i, j] = at ?? map.start;
    show(...(at ? [i + move[0], j + move[1]] : [i, j]));
  });
  return true;
}
