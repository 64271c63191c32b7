/** Laying the rails out: where they run, what they leave to hand work, and what moving them breaks. */
import { t } from "../../../words";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { useRoom } from "../../common/useRoom";

export function Layout({ id }: { id: string }) {
  const room = useRoom(id);
  return room ? <main class="page narrow"><h2>{t("rails.layout")}</h2><NoPlan room={room} /></main> : <Missing />;
}
