/** When the bed lay in place: section by section, or all that is left of it with one tap. Its age counts from the last of it. */
import { Fragment } from "preact";
import { addPlacement, editPlacement, markSection, mayWrite, placementsOf, placeSections, sectionTimesOf, type Row } from "../../state";
import { clockText, momentText } from "../../units";
import type { Section } from "../../wire";
import { reader, t } from "../../words";
import { Link } from "../common/Link";
import { Moment } from "../common/Moment";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";

const EVERY_MS = 20_000;
const HOUR_MS = 3_600_000;
const LONGEST_AGO = 87_600; // h, ten years: as far as the waiting looks

export interface PlacedSection {
  readonly section: Section;
  readonly at: string | null;
}

/** The sections in their order, each with when it was in place. Subscribes. */
export function placedSections({ id, plan }: RoomView): readonly PlacedSection[] {
  const sections = plan?.sections ?? [];
  const times = sectionTimesOf(id, sections);
  return [...sections].sort((a, b) => a.order - b.order).map((section) => ({ section, at: times.get(section.id)?.placed_at ?? null }));
}

function lastPlaced(rows: readonly Row<"placement">[]): Row<"placement"> | null {
  const placed = rows.filter(({ fields }) => fields.placed_at);
  return [...placed].sort((a, b) => Date.parse(b.fields.placed_at ?? "") - Date.parse(a.fields.placed_at ?? ""))[0] ?? null;
}

/** True where some sections are in place and others still to come. */
export function isPlacedInPart(room: RoomView): boolean {
  const sections = placedSections(room);
  const open = sections.filter(({ at }) => at === null).length;
  return sections.length > 1 && open > 0 && open < sections.length;
}

function Sections({ room, sections }: { room: RoomView; sections: readonly PlacedSection[] }) {
  useNow(EVERY_MS);
  const set = (section: Section, at: string | null) => void saved(markSection(room.id, section, "placed_at", at));
  return (
    <>
      <p class="quiet small" data-testid="sections-placed">{t("waiting.sections_placed", { placed: sections.filter(({ at }) => at !== null).length, sections: sections.length })}</p>
      {sections.map(({ section, at }) => (
        <Fragment key={section.id}>
          <Moment name={`${room.id}:placed:${section.id}`} testid={`placed-section-${section.order}`} label={t("filling.section", { section: `${section.order}` })} at={at} onSet={(moment) => set(section, moment)} />
          {at !== null && Date.parse(at) > Date.now() && <p class="caution" data-testid={`section-ahead-${section.order}`}>{t("waiting.section_ahead", { section: `${section.order}` })}</p>}
        </Fragment>
      ))}
    </>
  );
}

/** For whom the one tap is: the whole bed, or what of it has no time yet. */
function keysFor(open: number, all: number) {
  if (all < 2) return { now: t("waiting.placed_now"), ago: t("waiting.placed_ago"), more: t("waiting.placed_ago_more") };
  if (open === 0 || open === all) return { now: t("waiting.bed_now", { sections: all }), ago: t("waiting.bed_ago", { sections: all }), more: t("waiting.placed_ago_more") };
  return { now: t("waiting.rest_now", { sections: open }), ago: t("waiting.rest_ago", { sections: open }), more: t("waiting.placed_ago_more") };
}

function agoFault(hours: number): string | null {
  return hours > LONGEST_AGO ? t("waiting.ago_too_far") : null;
}

export function Placed({ room }: { room: RoomView }) {
  const rows = placementsOf(room.id).value;
  const last = lastPlaced(rows);
  const sections = placedSections(room);
  const open = sections.filter(({ at }) => at === null);
  const keys = keysFor(open.length, sections.length);
  const place = (moment: Date) => {
    const at = moment.toISOString();
    const meant = open.length > 0 ? open : sections;
    if (meant.length > 0) void saved(placeSections(room.id, meant.map(({ section }) => section), at));
    else void saved(last ? editPlacement(last.id, { placed_at: at }) : addPlacement(room.id, { section: "", placed_at: at }));
  };
  const isOpen = last === null || (sections.length > 1 && open.length > 0);
  return (
    <section class="stack tight" data-testid="placed">
      {last && <p class="notice" data-testid="placed-at">{t(sections.length > 1 ? "waiting.placed_last" : "waiting.placed", { at: momentText(last.fields.placed_at ?? "", reader.value) })}</p>}
      {isOpen && mayWrite.value && <button type="button" class="button main wide" data-testid="placed-now" onClick={() => place(new Date())}>{keys.now}</button>}
      <ValueField
        name={`${room.id}:placed-ago`} label={keys.ago} shown={last ? clockText(last.fields.placed_at ?? "", reader.value) : t("none_yet")}
        measure="number" note={keys.more} faultOf={agoFault} onValue={(hours) => place(new Date(Date.now() - hours * HOUR_MS))}
      />
      {sections.length > 1 && <Sections room={room} sections={sections} />}
      {last && <Link to={pathOfHistory("placement", last.id)} class="button wide" testid="placement-history">{t("history.open")}</Link>}
    </section>
  );
}
