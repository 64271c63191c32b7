/** What the rails break, the places left to hand work, and the rails themselves: a tap shows each on the drawing. */
import { HandSample } from "../../../drawing/HandAreas";
import { areaText, lengthText } from "../../../units";
import type { HandArea, Plan } from "../../../wire";
import { reader, t } from "../../../words";
import { cautionText } from "../../common/plan";
import type { Break } from "./breaks";
import { lengthOf, lineOfRail } from "./shown";
import type { Lines } from "./useLines";

interface BreaksProps {
  readonly title: string;
  readonly breaks: readonly Break[];
  readonly laid: Lines;
  readonly onHand: (line: string) => void;
}

export function Breaks({ title, breaks, laid, onHand }: BreaksProps) {
  if (breaks.length === 0) return null;
  return (
    <section class="stack tight">
      <h3>{title}</h3>
      <ul class="cautions" data-testid="cautions">
        {breaks.map(({ caution, rail }, index) => {
          const line = rail === null ? null : lineOfRail(laid.lines, rail);
          const text = cautionText(caution);
          return (
            <li key={index} data-code={caution.code} class={line ? "" : "caution"}>
              {line ? <button type="button" class="caution break" data-testid="break" onClick={() => onHand(line.id)}>{text}</button> : text}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function wayText({ way, straightedge }: HandArea): string {
  if (way === "short_straightedge" && straightedge !== null) return t("hand_way.short_straightedge", { straightedge });
  return t(way === "overhanging_straightedge" ? "hand_way.overhanging_straightedge" : "hand_way.float");
}

interface HandAreasProps {
  readonly areas: Plan["hand_areas"];
  readonly lit: string | null;
  readonly onLit: (id: string | null) => void;
}

export function HandAreaList({ areas, lit, onLit }: HandAreasProps) {
  if (areas.length === 0) return null;
  return (
    <section class="stack tight">
      <h3>{t("lay.hand_areas")}</h3>
      <p class="quiet small">{t("lay.hand_areas_more")}</p>
      <ul class="hand-list">
        {areas.map((area) => (
          <li key={area.id}>
            <button type="button" class="hand-line-button" aria-pressed={area.id === lit} data-testid="hand-area" data-kind={area.kind} onClick={() => onLit(area.id === lit ? null : area.id)}>
              <HandSample name={`key-${area.id}`} kind={area.kind} />
              <span><strong>{area.id}</strong> {t(`hand_kind.${area.kind}`)}<span class="way">{wayText(area)}</span></span>
              <span class="given">{areaText(area.area, reader.value)}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A way to take a rail in hand that needs no aim. */
export function RailList({ laid, hand, onHand }: { laid: Lines; hand: string | null; onHand: (line: string) => void }) {
  if (laid.lines.length === 0) return null;
  return (
    <section class="stack tight">
      <h3>{t("lay.rails")}</h3>
      <div class="rail-list">
        {laid.lines.map((line) => (
          <button key={line.id} type="button" class="button" aria-pressed={line.id === hand} aria-label={t("lay.take", { rail: line.id })} data-testid="take-rail" onClick={() => onHand(line.id)}>
            <strong>{line.id}</strong> {lengthText(lengthOf(line), reader.value)}
          </button>
        ))}
      </div>
    </section>
  );
}
