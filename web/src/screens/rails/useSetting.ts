/** Setting stations one after the other: what is in hand, what comes next, and going on at once while the last is stored. */
import { useMemo, useRef, useState } from "preact/hooks";
import { mayWrite, roomOf, setStation, setStationsOf, unsetStation, wholeRails, type SetStation } from "../../state";
import type { StripsOnHand } from "../../wire";
import { saved, sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { afterwards, doneIn, inHand, movedIn, standingsOf, type Standing } from "./stations";

const NONE: ReadonlySet<string> = new Set();

export interface SettingStations {
  readonly standings: readonly Standing[];
  readonly set: ReadonlyMap<string, SetStation>;
  /** Set as the plan has them now, those on their way into storage included. */
  readonly done: ReadonlySet<string>;
  /** Set to a height that the plan no longer has. */
  readonly moved: ReadonlySet<string>;
  /** The strips on hand, as the plan counts them. */
  readonly strips: readonly StripsOnHand[];
  readonly hand: Standing | null;
  readonly next: Standing | null;
  /** True after a station could not be stored. */
  readonly isLost: boolean;
  readonly choose: (key: string | null) => void;
  readonly step: (way: 1 | -1) => void;
  readonly mark: (hand: Standing) => void;
  readonly unmark: (hand: Standing) => void;
}

export function useSetting(roomId: string, plan: RoomView["plan"]): SettingStations {
  const [chosen, choose] = useState<string | null>(null);
  const [coming, setComing] = useState(NONE);
  const [isLost, setLost] = useState(false);
  const queue = useRef<Promise<unknown>>(Promise.resolve());
  const standings = useMemo(() => (plan ? standingsOf(plan) : []), [plan]);
  const set = setStationsOf(roomId, plan?.rails ?? []);
  const strips = wholeRails(roomOf(roomId)?.fields ?? {})["rails.strips"] ?? [];
  const done = new Set([...doneIn(set, standings), ...coming]);
  const moved = new Set([...movedIn(set, standings)].filter((key) => !coming.has(key)));
  const hand = inHand(standings, done, chosen);
  const next = hand && afterwards(standings, done, hand.key);
  const step = (way: 1 | -1) => {
    const at = hand ? standings.indexOf(hand) : way === 1 ? -1 : 0;
    choose(standings[(at + way + standings.length) % standings.length]?.key ?? null);
  };
  /** One after the other: each has its own step to undo. */
  const inTurn = async (act: () => Promise<unknown>) => {
    const before = queue.current;
    const after = before.then(() => saved(act()));
    queue.current = after;
    return after;
  };
  const mark = ({ key, rail, station: { at, shim } }: Standing) => {
    if (!mayWrite.value) { sayOnlyLooks(); return; }
    setComing((keys) => new Set([...keys, key]));
    choose(afterwards(standings, done, key)?.key ?? null);
    void inTurn(() => setStation(roomId, { rail: rail.id, at: [at[0], at[1]], shim }, set.get(key))).then((isSaved) => {
      setComing((keys) => new Set([...keys].filter((one) => one !== key)));
      setLost(!isSaved);
      if (!isSaved) choose(key);
    });
  };
  const unmark = ({ key }: Standing) => {
    const before = set.get(key);
    choose(key);
    if (before) void inTurn(() => unsetStation(before));
  };
  return { standings, set, done, moved, strips, hand, next, isLost, choose, step, mark, unmark };
}
