/** A text or bytes given to the person as a file, by the browser's own saving or sharing: no network takes part. */
const KEPT_MS = 60_000; // some browsers read the file only once the person has said where it goes

export function saveFile(name: string, content: BlobPart, type = "application/json"): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}

interface TextFile {
  readonly name: string;
  readonly text: string;
  readonly type: string;
}

function filesOf({ name, text, type }: TextFile): { readonly files: File[] } {
  return { files: [new File([text], name, { type })] };
}

export const shareFile = {
  /** Whether this browser hands such a file to another app. */
  isOffered(file: TextFile): boolean {
    return "canShare" in navigator && navigator.canShare(filesOf(file));
  },
  /** False where the person changed their mind, or the browser would not. */
  share(file: TextFile): Promise<boolean> {
    return navigator.share(filesOf(file)).then(() => true, () => false);
  },
};
