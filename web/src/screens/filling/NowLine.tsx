/** What to do now, in one or two short lines: stopped, the section in hand and its mortar, or done. */
import { endEntry, lasting, mayWrite } from "../../state";
import type { Plan } from "../../wire";
import { t } from "../../words";
import { NEARLY, sectionInHand, tenths, type FillingNow, type SectionNow } from "../common/filled";
import { saved } from "../common/saving";

function Stopped({ room }: { room: string }) {
  const stopped = lasting(room, "stopped");
  if (!stopped) return null;
  return (
    <div class="stopped" data-testid="stopped">
      <p>{t("filling.stopped_since", { at: stopped.fields.at ?? "" })}</p>
      {mayWrite.value && <button type="button" class="button main" data-testid="go-on" onClick={() => void saved(endEntry(stopped.id))}>{t("filling.go_on")}</button>}
    </div>
  );
}

function mudText({ section, mixed }: SectionNow, plan: Plan): string {
  const left = Math.max(0, section.batches - mixed);
  if (mixed > 0 && left < NEARLY) return t("filling.mud_whole");
  const numbers = { mixed: tenths(mixed), batches: tenths(section.batches), bags: tenths(left * plan.mix.batch.bags) };
  return t(mixed > 0 ? "filling.mud_begun" : "filling.mud", numbers);
}

function channelText({ section }: SectionNow): string {
  const { channels } = section;
  if (channels.length === 0) return t("filling.without_channels");
  return t("filling.then_channels", { count: channels.length, length: channels.reduce((sum, { length }) => sum + length, 0) });
}

export function NowLine({ room, plan, filling }: { room: string; plan: Plan; filling: FillingNow }) {
  const hand = sectionInHand(filling.sections, filling.clock);
  const toPack = filling.acts.pack;
  return (
    <div class="now-line">
      <Stopped room={room} />
      {toPack && <p class="pack-now" data-testid="pack-now">{t("filling.pack_now", { section: `${toPack.section.order}` })}</p>}
      {hand
        ? <p data-testid="now-section"><strong>{t(hand.state === "waiting" ? "filling.next" : "filling.in_hand", { section: `${hand.section.order}` })}</strong> <span>{mudText(hand, plan)}</span> <span>{channelText(hand)}</span></p>
        : !toPack && <p class="notice good" data-testid="all-filled">{t("filling.all_filled")}</p>}
    </div>
  );
}
