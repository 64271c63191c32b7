/** A file's bytes as text: UTF-8, UTF-16 where it says so, else the old page of Western computers. */
const MARKS: readonly (readonly [number, number, string])[] = [[0xff, 0xfe, "utf-16le"], [0xfe, 0xff, "utf-16be"]];

export async function textFromFile(file: Blob): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const marked = MARKS.find(([first, second]) => bytes[0] === first && bytes[1] === second);
  if (marked) return new TextDecoder(marked[2]).decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
