/** A device's name, and removing it: said beforehand what happens to what it has not sent. */
import { useState } from "preact/hooks";
import { clearDraft, removeDevice, renameDevice, session, type KnownDevice } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { TextField, typedIn } from "../common/TextField";
import { Failure, useWish } from "./Outcome";

function Removing({ device, onClose }: { device: KnownDevice; onClose: () => void }) {
  const wish = useWish();
  const isHere = device.id === session.value.deviceId;
  const remove = async () => { if ((await wish.ask(() => removeDevice(device.id))).outcome === "done") onClose(); };
  return (
    <div class="stack tight" data-testid="removing">
      <p class="caution">{t(isHere ? "device.remove_here" : "device.remove_more", { device: device.name })}</p>
      <button type="button" class="button danger wide" data-testid="remove-really" disabled={wish.isAsking} onClick={() => void remove()}>{t("device.remove_really")}</button>
      <Failure wish={wish} />
    </div>
  );
}

export function DeviceSheet({ device, onClose }: { device: KnownDevice; onClose: () => void }) {
  const draft = `device-name:${device.id}`;
  const [isRemoving, setRemoving] = useState(false);
  const wish = useWish();
  const name = typedIn(draft, device.name).trim();
  const keep = async () => {
    if ((await wish.ask(() => renameDevice(device.id, name))).outcome !== "done") return;
    await clearDraft(draft);
    onClose();
  };
  return (
    <Dialog title={device.name} testid="device-sheet" onClose={onClose}>
      <form class="stack" onSubmit={(event) => { event.preventDefault(); if (name) void keep(); }}>
        <TextField label={t("device.name")} draft={draft} testid="device-name" otherwise={device.name} />
        <button type="submit" class="button main wide" data-testid="keep-device" disabled={wish.isAsking || !name}>{t("keep")}</button>
        <Failure wish={wish} />
        {!isRemoving && <button type="button" class="button danger wide" data-testid="remove-device" onClick={() => setRemoving(true)}>{t("device.remove")}</button>}
      </form>
      {isRemoving && <Removing device={device} onClose={onClose} />}
    </Dialog>
  );
}
