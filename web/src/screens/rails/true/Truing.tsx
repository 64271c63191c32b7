/** Truing the rails: what the level shows, and what to raise or tap down. */
import { t } from "../../../words";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { useRoom } from "../../common/useRoom";

export function Truing({ id }: { id: string }) {
  const room = useRoom(id);
  return room ? <main class="page narrow"><h2>{t("rails.truing")}</h2><NoPlan room={room} /></main> : <Missing />;
}
