/** Who works on the job: a foreman's choice, made with or without a network. Foremen see every job anyhow. */
import { useEffect, useState } from "preact/hooks";
import { historyOf, loadPeople, people, setCrew, type KnownPerson, type Row } from "../../state";
import { t } from "../../words";
import { saved } from "../common/saving";

interface MemberProps {
  readonly person: KnownPerson;
  readonly crew: readonly string[];
  /** False until it is known who would be marked besides. */
  readonly isReady: boolean;
  readonly onToggle: (id: string) => void;
}

function Member({ person, crew, isReady, onToggle }: MemberProps) {
  return (
    <button type="button" class="button wide member" aria-pressed={crew.includes(person.id)} data-testid="crew-member" disabled={!isReady} onClick={() => onToggle(person.id)}>
      <span>{person.name}</span>
      <span class="small">{t(`role.${person.role}`)}</span>
    </button>
  );
}

/**
 * Whoever made the job, while nobody was ever marked: they see it, and stay with it when others are marked. Undefined
 * until the job's story is here, from the office or as it was kept; null where it does not say.
 */
function useMaker(job: string, isWanted: boolean): string | null | undefined {
  const [device, setDevice] = useState<string | null | undefined>(undefined);
  useEffect(() => { if (isWanted) void historyOf("job", job).then(({ entries }) => setDevice(entries[0]?.device_id ?? null)); }, [job, isWanted]);
  const maker = people.value?.list.find(({ devices }) => devices.some(({ id }) => id === device));
  return device === undefined ? undefined : (maker?.id ?? null);
}

function noteOf(crew: readonly string[] | null, others: number): string {
  if (people.value === null) return t("crew.no_list");
  if (others === 0) return t("crew.nobody_else");
  return crew === null ? t("crew.never_set") : t("crew.more");
}

export function Crew({ job }: { job: Row<"job"> }) {
  useEffect(() => void loadPeople(), []);
  const crew = job.fields.crew ?? null;
  const others = people.value?.list.filter(({ role }) => role !== "foreman") ?? [];
  const maker = useMaker(job.id, crew === null);
  const marked = crew ?? others.filter(({ id }) => id === maker).map(({ id }) => id);
  const toggle = (id: string) => {
    void saved(setCrew(job.id, marked.includes(id) ? marked.filter((one) => one !== id) : [...marked, id]));
  };
  return (
    <section class="stack tight" data-testid="crew">
      <h3>{t("crew.title")}</h3>
      <p class="quiet small">{noteOf(crew, others.length)}</p>
      {others.map((person) => <Member key={person.id} person={person} crew={marked} isReady={crew !== null || maker !== undefined} onToggle={toggle} />)}
    </section>
  );
}
