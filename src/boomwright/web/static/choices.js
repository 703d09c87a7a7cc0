// What a reader chooses once for every sheet: units, day or night.

export function remember(name, value) {
  document.cookie = `boomwright-${name}=${value}; path=/; SameSite=Strict; max-age=31536000`;
}

export function chooseScheme() {
  document.getElementById("scheme").addEventListener("change", ({ target: { value } }) => {
    remember("scheme", value);
    if (value) document.documentElement.dataset.scheme = value;
    else delete document.documentElement.dataset.scheme;
  });
}
