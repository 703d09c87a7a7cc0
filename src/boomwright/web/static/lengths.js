// Lengths as the server writes them, for the moment between a drag and its answer.

const INCH = 0.0254;

function inchText(sixteenths) {
  const whole = Math.floor(sixteenths / 16);
  let part = sixteenths % 16;
  if (!part) return `${whole}`;
  let below = 16;
  while (part % 2 === 0) {
    part /= 2;
    below /= 2;
  }
  return whole ? `${whole}-${part}/${below}` : `${part}/${below}`;
}

export function lengthText(metres, system) {
  if (system === "metric") return `${metres.toFixed(3).replace(/^-(0\.000)$/, "$1")} m`;
  const count = Math.round(Math.abs(metres / INCH) * 16);
  const sign = metres < 0 && count ? "-" : "";
  const feet = Math.floor(count / 192);
  const inches = inchText(count % 192);
  return feet ? `${sign}${feet} ft ${inches} in` : `${sign}${inches} in`;
}

// Steps of keys and drags: usual, fine, coarse.
export const STEPS = {
  metric: { step: 0.01, fine: 0.001, coarse: 0.1, words: ["10 mm", "1 mm", "100 mm"] },
  us: { step: INCH / 4, fine: INCH / 16, coarse: INCH * 4, words: ["1/4 in", "1/16 in", "4 in"] },
};

export function snapped(metres, step) {
  return Math.round(metres / step) * step;
}
