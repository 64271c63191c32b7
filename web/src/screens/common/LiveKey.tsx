/** What the patterns and lines of the live floor mean. */
import { liveFill, LivePatterns, Mixer } from "../../drawing/Live";
import type { SceneLive } from "../../drawing/live";
import { t } from "../../words";
import { SECTION_STATES, type SectionState } from "./filled";

const NAME = "live-key";

/** The pattern of a state, as on the drawing. */
export function StateSwatch({ state }: { state: SectionState }) {
  const fill = liveFill(state, NAME);
  return (
    <svg class="sheet state-swatch" viewBox="0 0 32 22" aria-hidden="true">
      <g class={`live-section ${state}`}>
        <path d="M1 1H31V21H1Z" {...(fill === undefined ? {} : { style: { fill } })} />
        {state === "packed" && <path class="check" d="M10 11l4 4l8 -9" />}
      </g>
    </svg>
  );
}

function LineSwatch({ kind }: { kind: string }) {
  return <svg class="sheet state-swatch" viewBox="0 0 32 22" aria-hidden="true"><g class="live"><path class={kind} d="M1 11H31" /></g></svg>;
}

/** The patterns that every swatch of the screen is filled with. */
export function SwatchPatterns() {
  return <svg class="sheet swatch-patterns" width="0" height="0" aria-hidden="true"><LivePatterns name={NAME} /></svg>;
}

export function LiveKey({ live }: { live: SceneLive }) {
  return (
    <div class="live-key" data-testid="live-key">
      <SwatchPatterns />
      {SECTION_STATES.map((state) => <span key={state}><StateSwatch state={state} />{t(`section_state.${state}`)}</span>)}
      {live.channels.length > 0 && <span><LineSwatch kind="live-channel" />{t("live.channel")}</span>}
      {live.edges.length > 0 && <span><LineSwatch kind="live-edge" />{t("live.edge")}</span>}
      {live.rails.some(({ isSet }) => isSet) && <span><LineSwatch kind="live-rail set" />{t("live.rail_set")}</span>}
      {live.rails.some(({ isSet }) => !isSet) && <span><LineSwatch kind="live-rail" />{t("live.rail")}</span>}
      {live.mixer && <span><svg class="sheet state-swatch" viewBox="0 0 32 22" aria-hidden="true"><Mixer at={[16, 11]} /></svg>{t("live.mixer")}</span>}
    </div>
  );
}
