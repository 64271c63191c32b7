/** The app's own tone: three short rising beeps, made on the phone. Browsers give sound only after a first tap. */

const BEEPS_HZ = [660, 880, 1175] as const;
const BEEP_S = 0.22;
const GAP_S = 0.1;
const LOUD = 0.6;
const SHAKE_MS = [400, 150, 400, 150, 400];

let context: AudioContext | null = null;

/** To be called from a tap: from then on sound is allowed. */
export function wakeTone(): void {
  if (typeof AudioContext === "undefined") return;
  context ??= new AudioContext();
  if (context.state === "suspended") void context.resume();
}

function beep(at: AudioContext, frequency: number, start: number): void {
  const [tone, loudness] = [at.createOscillator(), at.createGain()];
  tone.type = "square";
  tone.frequency.value = frequency;
  loudness.gain.setValueAtTime(LOUD, start);
  loudness.gain.exponentialRampToValueAtTime(0.01, start + BEEP_S);
  tone.connect(loudness).connect(at.destination);
  tone.start(start);
  tone.stop(start + BEEP_S);
}

/** Sounds and shakes once; does nothing where nobody has tapped yet, or the phone has neither. */
export function soundAlarm(): void {
  const at = context;
  if (at?.state === "running") for (const round of [0, 1]) BEEPS_HZ.forEach((hz, index) => beep(at, hz, at.currentTime + (3 * round + index) * (BEEP_S + GAP_S) + round * GAP_S));
  if ("vibrate" in navigator && navigator.userActivation.hasBeenActive) navigator.vibrate(SHAKE_MS);
}
