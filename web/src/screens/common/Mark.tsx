/** The sign of the app: a level line over a bed of mortar that is thicker where the floor is low. */
export function Mark({ large = false }: { large?: boolean }) {
  return (
    <svg class={large ? "mark large" : "mark"} viewBox="0 0 48 32" aria-hidden="true">
      <path class="mark-bed" d="M2 10H46V22C38 17 32 28 24 25S10 18 2 24Z" />
      <path class="mark-floor" d="M2 24C10 18 16 22 24 25S38 17 46 22" />
      <path class="mark-level" d="M2 10H46" />
      <path class="mark-line" d="M2 4H46" />
    </svg>
  );
}
