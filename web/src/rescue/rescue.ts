/** The way out that needs nothing of the app: everything unsent as a file, read with the browser's own means. */
import "./rescue.css";
import { unsentFile, type UnsentFile } from "../storage/unsent";

const KEPT_MS = 60_000; // some browsers read the file only once the person has said where it goes

function toldOf({ count, missing }: UnsentFile): string {
  const saved = `Saved as a file: ${count} waiting. · Guardado en un archivo: ${count} en espera.`;
  if (missing.length === 0) return saved;
  const parts = missing.map(({ part }) => part).join(", ");
  return `${saved} Could not be read · No se pudo leer: ${parts}.`;
}

function handOver({ name, text }: UnsentFile): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  Object.assign(document.createElement("a"), { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}

async function save(told: HTMLElement): Promise<void> {
  const file = await unsentFile();
  handOver(file);
  told.textContent = toldOf(file);
}

const [button, told] = [document.getElementById("save"), document.getElementById("told")];
if (button === null || told === null) throw new Error("The page lacks its button.");
button.addEventListener("click", () => void save(told));
