/* Everything works without this; it only makes two things nicer. */
"use strict";

/* On a phone the counts that narrow a list start folded away. */
if (window.matchMedia("(max-width: 46rem)").matches) {
  for (const facets of document.querySelectorAll("details.facets")) facets.open = false;
}

/* A picture to keep as PNG: the SVG file drawn on a canvas, twice its size. */
for (const button of document.querySelectorAll("button[data-from]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const link = document.getElementById(button.dataset.from);
    const svg = await (await fetch(link.href)).blob();
    const image = new Image();
    image.src = URL.createObjectURL(svg);
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = 2 * image.naturalWidth;
    canvas.height = 2 * image.naturalHeight;
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    canvas.toBlob((png) => {
      const save = document.createElement("a");
      save.href = URL.createObjectURL(png);
      save.download = link.download.replace(".svg", ".png");
      save.click();
    });
  });
}
