/** Who works with the office, and on which devices: for foremen. The last list that the office told stays on show. */
import { useEffect, useState } from "preact/hooks";
import { isForeman, loadPeople, people, session, type KnownDevice, type KnownPerson } from "../../state";
import { momentText } from "../../units";
import { reader, t } from "../../words";
import { DeviceSheet } from "./DeviceSheet";
import { InviteSheet } from "./InviteSheet";
import { Failure, useWish } from "./Outcome";
import { PersonSheet } from "./PersonSheet";

type Opened =
  | { readonly what: "invite" }
  | { readonly what: "another"; readonly person: KnownPerson }
  | { readonly what: "person"; readonly person: KnownPerson }
  | { readonly what: "device"; readonly device: KnownDevice };

function heardText(device: KnownDevice): string {
  const { removed_at: removed, last_seen_at: seen } = device;
  if (removed !== null) return t("device.removed", { at: removed });
  const heard = seen === null ? t("device.never_heard") : t("device.heard", { at: seen });
  return device.id === session.value.deviceId ? t("device.here", { heard }) : heard;
}

function DeviceLine({ device, onOpen }: { device: KnownDevice; onOpen: () => void }) {
  const isHere = device.id === session.value.deviceId;
  const facts = <><span class="given">{device.name}</span><span class="quiet small">{heardText(device)}</span></>;
  if (device.removed_at !== null) return <li class="device removed" data-testid="removed-device">{facts}</li>;
  return (
    <li>
      <button type="button" class={isHere ? "device button is-changed" : "device button"} data-testid="device" onClick={onOpen}>{facts}</button>
    </li>
  );
}

function PersonCard({ person, onOpen }: { person: KnownPerson; onOpen: (opened: Opened) => void }) {
  return (
    <li class="card person" data-testid="person">
      <div class="title-row">
        <div><h2>{person.name}</h2><p class="quiet">{t(`role.${person.role}`)}</p></div>
        <button type="button" class="button" aria-label={t("person.change", { person: person.name })} data-testid="change-person" onClick={() => onOpen({ what: "person", person })}>{t("change")}</button>
      </div>
      <ul class="stack tight">
        {person.devices.map((device) => <DeviceLine key={device.id} device={device} onOpen={() => onOpen({ what: "device", device })} />)}
      </ul>
      {person.devices.length === 0 && <p class="quiet small">{t("person.no_device")}</p>}
      <button type="button" class="button plain" data-testid="another-device" onClick={() => onOpen({ what: "another", person })}>{t("person.another")}</button>
    </li>
  );
}

function Sheet({ opened, onClose }: { opened: Opened; onClose: () => void }) {
  if (opened.what === "invite") return <InviteSheet onClose={onClose} />;
  if (opened.what === "another") return <InviteSheet known={opened.person} onClose={onClose} />;
  if (opened.what === "person") return <PersonSheet person={opened.person} onClose={onClose} />;
  return <DeviceSheet device={opened.device} onClose={onClose} />;
}

export function People() {
  const [opened, setOpened] = useState<Opened | null>(null);
  const wish = useWish();
  const isAllowed = isForeman.value;
  useEffect(() => { if (isAllowed) void wish.ask(loadPeople); }, [isAllowed]);
  if (!isAllowed) return <main class="page narrow"><h1>{t("people.title")}</h1><p data-testid="for-foremen">{t("people.for_foremen")}</p></main>;
  const told = people.value;
  const close = () => { setOpened(null); void wish.ask(loadPeople); };
  return (
    <main class="page" data-testid="people">
      <div class="title-row">
        <h1>{t("people.title")}</h1>
        <button type="button" class="button main" data-testid="invite-somebody" onClick={() => setOpened({ what: "invite" })}>{t("people.invite")}</button>
      </div>
      <Failure wish={wish} />
      {told && wish.failure !== null && <p class="quiet small">{t("people.as_of", { at: momentText(told.at, reader.value) })}</p>}
      <ul class="cards">{told?.list.map((person) => <PersonCard key={person.id} person={person} onOpen={setOpened} />)}</ul>
      {opened && <Sheet opened={opened} onClose={close} />}
    </main>
  );
}
