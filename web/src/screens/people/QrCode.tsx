/** A QR code, black on white in every light, with the four empty squares around it that readers need. */
import { encode } from "uqr";

const QUIET = 4; // squares, as the standard of the code (ISO/IEC 18004) asks

export function QrCode({ text, label }: { text: string; label: string }) {
  const { size, data } = encode(text, { ecc: "M", border: QUIET });
  const squares = data.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shape-rendering="crispEdges" data-testid="qr">
      <rect width={size} height={size} class="qr-paper" />
      <path d={squares.join("")} class="qr-ink" />
    </svg>
  );
}
