/** One thing to buy for all rooms: whole packages of the sum, and how it came about. */
import type { OrderRow } from "../../wire";
import { t } from "../../words";
import { Figure } from "../common/Figure";
import { amountText, itemName, quantityText, sizeText } from "../common/materials";
import { addedUp } from "../common/ownExplanations";

const NO_PLAN = { explanations: {} };

/** The rooms are named where not all of them need it. */
export function OrderFigure({ row, saves, isForAll }: { row: OrderRow; saves: string | null; isForAll: boolean }) {
  const size = sizeText(row);
  const note = [quantityText(row), size && t("order.each", { size }), isForAll ? null : row.rooms.join(", ")].filter((part) => part !== null).join(" · ");
  return <Figure label={itemName(row)} value={amountText(row)} note={note} plan={NO_PLAN} path={`order-${row.item}`} explanation={addedUp(row, size)} {...(saves ? { by: saves } : {})} />;
}
