// Makes a chosen photo small before it is sent: a note is readable at 1,600 pixels, and what a phone writes into its
// pictures, such as the place, stays behind. Where a browser cannot, the file goes as it is.

const longestSide = 1600;

for (const field of document.querySelectorAll("input[data-photo]")) {
  field.addEventListener("change", async () => {
    const file = field.files[0];
    if (!file) return;
    try {
      const picture = await createImageBitmap(file), scale = Math.min(1, longestSide / Math.max(picture.width, picture.height));
      const canvas = Object.assign(document.createElement("canvas"), { width: Math.max(1, Math.round(picture.width * scale)), height: Math.max(1, Math.round(picture.height * scale)) });
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      const small = await new Promise(resolve => canvas.toBlob(resolve, "image/jpeg", .85));
      if (!small || field.files[0] !== file) return;
      const files = new DataTransfer();
      files.items.add(new File([small], file.name.replace(/\.[^.]*$/, "") + ".jpg", { type: "image/jpeg" }));
      field.files = files.files;
    } catch { /* No picture that this browser knows: the guild says what is wrong with it. */ }
  });
}
