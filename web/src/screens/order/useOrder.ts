/** The order of several rooms: their plans, and what the engine says of them together. */
import { useEffect, useState } from "preact/hooks";
import { askEngine, documentFromRoom, documentPrices, planOf, roomsOf, type Asked, type Row } from "../../state";
import type { OrderAnswer, OrderQuestion, Plan } from "../../wire";

export interface OrderedRoom {
  readonly room: Row<"room">;
  /** Null while there is none, or where the room has problems. */
  readonly plan: Plan | null;
  readonly isComing: boolean;
}

/** Every room of the job with its plan, which is made while somebody looks. */
export function useRoomsWithPlans(job: string): readonly OrderedRoom[] {
  return roomsOf(job).value.map((room) => {
    const { status, plan } = planOf(room.id).value;
    const hasProblems = status === "problems" || status === "failed";
    return { room, plan: hasProblems ? null : plan, isComing: !hasProblems && plan === null && documentFromRoom(room.id) !== null };
  });
}

/** The rows of the plans as they are: the engine passes over what an order does not need. */
export function questionFrom(rooms: readonly OrderedRoom[]): OrderQuestion {
  const asked = rooms.flatMap(({ room, plan }) => (plan === null ? [] : [roomFrom(room.fields.name ?? "", plan)]));
  const prices = documentPrices();
  return { rooms: asked, ...(prices ? { prices } : {}) };
}

function roomFrom(name: string, { materials, quote }: Plan): OrderQuestion["rooms"][number] {
  const { labour_hours, labour_hours_range } = quote;
  return { name, materials: materials as OrderQuestion["rooms"][number]["materials"], labour_hours, labour_hours_range };
}

/** Null until the engine has answered; an earlier answer stays in sight until the next one. */
export function useOrder(job: string, rooms: readonly OrderedRoom[]): Asked<OrderAnswer> | null {
  const [asked, setAsked] = useState<Asked<OrderAnswer> | null>(null);
  const question = questionFrom(rooms);
  const text = JSON.stringify(question);
  useEffect(() => {
    if (question.rooms.length === 0) { setAsked(null); return; }
    void askEngine<OrderAnswer>("order", `order:${job}`, question).then((answer) => { if (answer.outcome !== "replaced") setAsked(answer); });
  }, [job, text]);
  return asked;
}
