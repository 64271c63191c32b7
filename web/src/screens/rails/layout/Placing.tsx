/** Where a tap on the drawing means a place: for a new rail, or to part the one in hand; each also without a tap. */
import { t } from "../../../words";

export type Mode = "add" | "split";

interface PlacingProps {
  readonly mode: Mode;
  /** Why the last tap did nothing. */
  readonly refused: boolean;
  /** Without a tap: in the widest gap, or in the middle. */
  readonly onMiddle: (() => void) | null;
  readonly onLeave: () => void;
}

const HOW = { add: "lay.add_how", split: "lay.split_how" } as const;
const MIDDLE = { add: "lay.add_middle", split: "lay.split_middle" } as const;
const REFUSED = { add: "lay.add_refused", split: "lay.split_refused" } as const;

export function Placing({ mode, refused, onMiddle, onLeave }: PlacingProps) {
  return (
    <div class="rail-deck" data-testid={`placing-${mode}`}>
      <p class={refused ? "caution" : "notice"} role="status" data-testid="placing-how">{t(refused ? REFUSED[mode] : HOW[mode])}</p>
      <div class="row even">
        {onMiddle && <button type="button" class="button" data-testid="placing-middle" onClick={onMiddle}>{t(MIDDLE[mode])}</button>}
        <button type="button" class="button" data-testid="placing-leave" onClick={onLeave}>{t("lay.leave")}</button>
      </div>
    </div>
  );
}
