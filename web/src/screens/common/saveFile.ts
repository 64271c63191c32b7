/** A text given to the person as a file, by the browser's own saving: no network takes part. */
const KEPT_MS = 60_000; // some browsers read the file only once the person has said where it goes

export function saveFile(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}
