/** A join code that comes by address or by picture: behind the hash of the address, which no browser sends anywhere. */

const IN_ADDRESS = /[#&]join=([^&\s]+)/;
const BARE = /^[A-Za-z0-9]{4}-?[A-Za-z0-9]{4}$/;

/** The code in an address's text, or the text where it is a code itself; null where there is none. */
export function codeFromText(text: string): string | null {
  const found = IN_ADDRESS.exec(text)?.[1];
  if (found !== undefined) return decodeURIComponent(found);
  return BARE.test(text.trim()) ? text.trim() : null;
}

/** The code that opened the app, taken out of the address so that it is not kept there; null where there is none. */
export function takeCodeFromAddress(): string | null {
  const code = codeFromText(location.hash);
  if (code !== null) history.replaceState(null, "", location.pathname);
  return code;
}
