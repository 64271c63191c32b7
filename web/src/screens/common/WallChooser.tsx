/** Which wall: counted as they were walked, told with its length. */
import { t } from "../../words";

interface WallChooserProps {
  readonly lengths: readonly number[];
  readonly wall: number;
  readonly onWall: (wall: number) => void;
}

export function WallChooser({ lengths, wall, onWall }: WallChooserProps) {
  const count = lengths.length || 1;
  return (
    <div class="field">
      <span class="label">{t("wall.which")}</span>
      <div class="stepper small">
        <button type="button" class="button" aria-label={t("wall.before")} data-testid="wall-before" onClick={() => onWall((wall - 1 + count) % count)}>{"\u2039"}</button>
        <output class="shown" data-testid="wall">{t("wall.named", { wall: wall + 1, length: lengths[wall] ?? 0 })}</output>
        <button type="button" class="button" aria-label={t("wall.after")} data-testid="wall-after" onClick={() => onWall((wall + 1) % count)}>{"\u203a"}</button>
      </div>
    </div>
  );
}
