/**
 * How a colour looks to eyes that lack one kind of cone, and how light it is.
 *
 * Matrices for the full lack of a cone, on linear RGB: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Transactions on Visualization and Computer
 * Graphics 15 (2009). Lightness: CIE 15, L* of 1976, white at Y = 1. Transfer of sRGB: IEC 61966-2-1.
 */
type Row = readonly [number, number, number];
export type Sight = readonly [Row, Row, Row];

export const SIGHTS: Readonly<Record<"whole" | "protanopia" | "deuteranopia" | "tritanopia", Sight>> = {
  whole: [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
  protanopia: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deuteranopia: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritanopia: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};

function linear(byte: number): number {
  const share = byte / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}

function within(share: number): number {
  return Math.min(1, Math.max(0, share));
}

function seen(colour: string, sight: Sight): Row {
  const [r, g, b] = [1, 3, 5].map((at) => linear(parseInt(colour.slice(at, at + 2), 16))) as [number, number, number];
  return sight.map(([x, y, z]) => within(x * r + y * g + z * b)) as unknown as Row;
}

/** L* from 0 (black) to 100 (white) of `#rrggbb` as that sight has it. */
export function lightness(colour: string, sight: Sight): number {
  const [r, g, b] = seen(colour, sight);
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}
