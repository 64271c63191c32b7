/** The sections in order: what each takes, how far it is, and its channels as a small task of its own. */
import { useState } from "preact/hooks";
import { fillHere, markSection, mayWrite, placementsIn, type SectionMoment } from "../../state";
import { lengthText, volumeText } from "../../units";
import type { Plan, Section } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Figure } from "../common/Figure";
import { tenths, type FillingNow, type SectionNow } from "../common/filled";
import { Link } from "../common/Link";
import { StateSwatch } from "../common/LiveKey";
import { Moment } from "../common/Moment";
import { sectionVolume } from "../common/ownExplanations";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";

const MOMENTS = ["placed_at", "screeded_at", "channels_at"] as const satisfies readonly SectionMoment[];

function channelLength({ channels }: Section): number {
  return channels.reduce((sum, { length }) => sum + length, 0);
}

interface SheetProps {
  readonly room: string;
  readonly one: SectionNow;
  readonly onClose: () => void;
}

/** Every moment of one section, out of turn too. */
function SectionSheet({ room, one, onClose }: SheetProps) {
  const { section } = one;
  const row = placementsIn(room, section).at(-1);
  const set = (moment: SectionMoment, at: string | null) => { fillHere(room); void saved(markSection(room, section, moment, at)); };
  const moments = MOMENTS.filter((moment) => moment !== "channels_at" || section.channels.length > 0);
  return (
    <Dialog title={t("filling.section", { section: `${section.order}` })} testid="section-sheet" onClose={onClose}>
      <div class="stack tight">
        <p class="state-line"><StateSwatch state={one.state} /><strong>{t(`section_state.${one.state}`)}</strong></p>
        {moments.map((moment) => <Moment key={moment} name={`${room}:${section.id}:${moment}`} testid={`section-${moment}`} label={t(`named.placement.${moment}`)} at={one.times[moment]} onSet={(at) => set(moment, at)} />)}
        <ul class="lines">
          {section.channels.map((channel, index) => <li key={index} class="line"><span>{t("filling.channel", { rail: channel.rail })}</span><span>{lengthText(channel.length, reader.value)} · {volumeText(channel.volume, reader.value)}</span></li>)}
        </ul>
        {row && <Link to={pathOfHistory("placement", row.id)} class="button wide" label={t("history.of", { what: t("history.section", { section: section.order }) })} testid="placement-history">{t("history.open")}</Link>}
      </div>
    </Dialog>
  );
}

function Channels({ room, one }: { room: string; one: SectionNow }) {
  const { section, channelsDue } = one;
  if (one.state !== "screeded") return null;
  const task = { length: channelLength(section), volume: section.channel_volume, at: channelsDue ?? "" };
  return (
    <div class="channel-task" data-testid="channel-task">
      <p>{t(channelsDue === null ? "filling.channels_now" : "filling.channels_by", task)}</p>
      {mayWrite.value && <button type="button" class="button main" data-testid="pack-section" onClick={() => void saved(markSection(room, section, "channels_at"))}>{t("filling.packed")}</button>}
    </div>
  );
}

function SectionLine({ room, plan, one, onOpen }: { room: string; plan: Plan; one: SectionNow; onOpen: () => void }) {
  const { section, index, state, mixed } = one;
  const number = `${section.order}`;
  return (
    <li class="section-line" data-testid="section" data-state={state}>
      <button type="button" class="section-number" data-testid={`open-section-${number}`} aria-label={t("filling.open_section", { section: number })} onClick={onOpen}>
        <span class="order">{section.order}</span>
        <StateSwatch state={state} />
      </button>
      <Figure label={t(`section_state.${state}`)} value={volumeText(section.volume, reader.value)} note={t(mixed > 0 ? "filling.mixed_of" : "filling.batches", { batches: tenths(section.batches), mixed: tenths(mixed) })} plan={plan} path={`sections[${index}].volume`} explanation={sectionVolume(section, plan)} />
      {section.channels.length > 0 && state !== "screeded" && state !== "packed" && <p class="quiet small">{t("filling.leaves_channels", { count: section.channels.length, length: channelLength(section), volume: section.channel_volume })}</p>}
      <Channels room={room} one={one} />
      {one.isTrapped && <p class="caution" data-testid="trapped">{t("filling.trapped")}</p>}
    </li>
  );
}

export function Sections({ room, plan, filling }: { room: string; plan: Plan; filling: FillingNow }) {
  const [opened, setOpened] = useState<string | null>(null);
  const one = filling.sections.find(({ section }) => section.id === opened);
  return (
    <section class="stack tight">
      <h3>{t("filling.sections_title")}</h3>
      <p class="quiet small">{t("filling.how")}</p>
      <ol class="sections-list">
        {filling.sections.map((section) => <SectionLine key={section.section.id} room={room} plan={plan} one={section} onOpen={() => setOpened(section.section.id)} />)}
      </ol>
      {one && <SectionSheet room={room} one={one} onClose={() => setOpened(null)} />}
    </section>
  );
}
