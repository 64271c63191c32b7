/** Weather that harms the bed while it hardens, in order of time, and what to do about it. */
import type { WaitingAnswer } from "../../wire";
import { t } from "../../words";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { Evaporation } from "./Evaporation";

type Spell = WaitingAnswer["spells"][number];

const SHAPES: Readonly<Record<Spell["kind"], string>> = {
  frost: "M24 3V45M5.8 13.5L42.2 34.5M5.8 34.5L42.2 13.5M18 6L24 12L30 6M18 42L24 36L30 42",
  cold: "M19 5H29V28A10 10 0 1 1 19 28ZM24 20V34",
  heat: "M24 13a11 11 0 1 0 0.01 0ZM24 2V7M24 41V46M2 24H7M41 24H46M8 8L12 12M36 36L40 40M8 40L12 36M36 12L40 8",
  evaporation: "M24 8C15 20 11 26 11 32a13 13 0 0 0 26 0C37 26 33 20 24 8ZM17 32a7 7 0 0 0 7 7",
  wind: "M3 17H30a6 6 0 1 0-6-6M3 25H40a6 6 0 1 1-6 6M3 33H22a5 5 0 1 1-5 5",
};

export function SpellSign({ kind }: { kind: Spell["kind"] }) {
  return <svg class="sign spell-sign" viewBox="0 0 48 48" aria-hidden="true"><path d={SHAPES[kind]} /></svg>;
}

/** What to do; nobody is told not to place a bed that lies placed. */
export function spellAdvice(kind: Spell["kind"], isPlaced: boolean): string {
  return t(kind === "frost" && isPlaced ? "spell_do.frost_placed" : `spell_do.${kind}`);
}

/** What to do stands at the first spell of each kind. */
function SpellLine({ spell, isFirst, isPlaced }: { spell: Spell; isFirst: boolean; isPlaced: boolean }) {
  return (
    <li class={`spell-line ${spell.kind}`} data-testid={`spell-${spell.kind}`}>
      <SpellSign kind={spell.kind} />
      <div>
        <strong>{t(`spell.${spell.kind}`, { worst: spell.worst })}</strong>
        <p class="when">{t("weather.from_to", { from: spell.from, to: spell.to })} · {t(spell.forecast ? "weather.foretold" : "weather.measured")}</p>
        {isFirst && <p>{spellAdvice(spell.kind, isPlaced)}</p>}
      </div>
    </li>
  );
}

function Spells({ answer }: { answer: WaitingAnswer }) {
  if (answer.spells.length === 0) return <p class="notice" data-testid="no-spells">{t(answer.celsius_now === null ? "weather.nothing_known" : "weather.none")}</p>;
  return <ol class="spells" data-testid="spells">{answer.spells.map((spell, index, all) => <SpellLine key={index} spell={spell} isPlaced={answer.placed_at !== null} isFirst={all.findIndex(({ kind }) => kind === spell.kind) === index} />)}</ol>;
}

export function Weather({ answer }: { answer: WaitingAnswer }) {
  return (
    <section class="stack tight">
      <h3>{t("weather.title")}</h3>
      <Spells answer={answer} />
      <Cautions cautions={cautionsAt(answer, "spells")} />
      <Evaporation answer={answer} />
    </section>
  );
}
