/** Setting with wet hands: one station at a time, a giant figure. */
import { t } from "../../../words";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { useRoom } from "../../common/useRoom";

export function HandsOff({ id }: { id: string }) {
  const room = useRoom(id);
  return room ? <main class="page narrow"><h2>{t("rails.hands")}</h2><NoPlan room={room} /></main> : <Missing />;
}
