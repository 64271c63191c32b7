/**
 * Many phones in one process, each the app's own storage and sync over a database of its own, driven from outside in
 * lines of JSON: commands come in, results go out, and every request a phone makes goes out as a question.
 */
import { createInterface } from "node:readline";
import { beginAnew, calm, die, isDead, plan, setClock, type Trouble } from "./world";
import { contentsOf, copyDisk, wipeDisk } from "./disks";
import { Tab } from "./tab";
import { asVersion1 } from "./version_1";
import type { Edit } from "../../src/wire";

interface Message {
  readonly id: number;
  readonly do: string;
  readonly now: number;
  readonly disk: string;
  readonly tab: string;
  readonly [name: string]: unknown;
}

interface Answer {
  readonly status: number;
  readonly type: string;
  readonly body: string;
}

const tabs = new Map<string, Tab>();
const asked = new Map<number, { readonly tab: string; readonly hear: (answer: Answer | null) => void }>();
let questions = 0;
let complaints: string[] = [];

console.error = (...told: unknown[]) => complaints.push(told.map(textOf).join(" "));
process.on("unhandledRejection", (why) => complaints.push(`unhandled: ${textOf(why)}`));

function textOf(told: unknown): string {
  return told instanceof Error ? `${told.name}: ${told.message} ${told.stack ?? ""} ${textOf(told.cause ?? "")}` : String(told);
}

function say(line: object): void {
  process.stdout.write(`${JSON.stringify(line)}\n`);
}

/** A phone's request: the machine answers when it likes, or says that no answer comes. */
function ask(tab: string, path: string, init: RequestInit): Promise<Response> {
  const question = ++questions;
  return new Promise((resolve, reject) => {
    const hear = (answer: Answer | null) => {
      if (answer === null) reject(new TypeError("The network broke."));
      else resolve(new Response(answer.body, { status: answer.status, headers: { "content-type": answer.type } }));
    };
    asked.set(question, { tab, hear });
    say({ ask: question, tab, path, method: init.method ?? "GET", body: init.body ?? null });
  });
}

function hear(question: number, answer: Answer | null): void {
  const waiting = asked.get(question);
  asked.delete(question);
  waiting?.hear(answer);
}

function tabOf({ tab }: Message): Tab {
  const open = tabs.get(tab);
  if (open === undefined) throw new Error(`No tab ${tab} is open.`);
  return open;
}

async function open({ tab, disk }: Message): Promise<void> {
  calm(disk);
  const opened = new Tab(disk, (path, init) => ask(tab, path, init));
  tabs.set(tab, opened);
  await opened.start();
}

function close(names: readonly string[]): void {
  for (const name of names) {
    tabs.get(name)?.close();
    tabs.delete(name);
  }
}

/** The phone is dead from this moment: nothing more is written, and whoever waits for a reply waits no longer. */
function crash({ disk }: Message): void {
  die(disk);
  const gone = [...tabs].filter(([, tab]) => tab.disk === disk).map(([name]) => name);
  close(gone);
  for (const [question, { tab }] of asked) if (gone.includes(tab)) hear(question, null);
}

async function reset(): Promise<void> {
  close([...tabs.keys()]);
  beginAnew();
  for (const { name } of await indexedDB.databases()) if (name !== undefined) await wipeDisk(name);
}

const COMMANDS: Readonly<Record<string, (message: Message) => unknown>> = {
  reset,
  open,
  close: ({ tab }) => close([tab]),
  crash,
  join: (message) => tabOf(message).join(String(message["code"]), String(message["person"])),
  leave: (message) => tabOf(message).leave(),
  sync: (message) => tabOf(message).sync(),
  write: (message) => tabOf(message).write(message["edits"] as readonly Edit[]),
  unsent: (message) => tabOf(message).unsent(),
  read_in: (message) => tabOf(message).readIn(String(message["text"])),
  open_job: (message) => tabOf(message).openJob(String(message["job"])),
  job_file: (message) => tabOf(message).jobFile(String(message["job"])),
  take_job: (message) => tabOf(message).takeJob(String(message["file"])),
  dismiss: (message) => tabOf(message).dismiss(String(message["change"])),
  shown: (message) => tabOf(message).shown,
  loaded: (message) => tabOf(message).loaded(),
  contents: ({ disk }) => contentsOf(disk),
  trouble: ({ disk, how, after }) => plan(disk, how as Trouble, Number(after)),
  calm: ({ disk }) => calm(disk),
  copy: ({ disk, to }) => copyDisk(disk, String(to)),
  wipe: ({ disk }) => wipeDisk(disk),
  version_1: ({ disk }) => asVersion1(disk),
};

async function obey(message: Message): Promise<void> {
  const command = COMMANDS[message.do];
  try {
    if (command === undefined) throw new Error(`No command ${message.do}.`);
    const result: unknown = await command(message);
    settle(message, { result: result ?? null });
  } catch (error) {
    settle(message, { error: textOf(error), reason: (error as { reason?: unknown }).reason ?? null });
  }
}

function settle({ id, disk }: Message, outcome: object): void {
  say({ id, ...outcome, dead: isDead(disk), complaints });
  complaints = [];
}

createInterface({ input: process.stdin }).on("line", (line) => {
  const message = JSON.parse(line) as Message & { answer?: number; reply?: Answer | null };
  setClock(message.now);
  if (message.answer === undefined) void obey(message);
  else hear(message.answer, message.reply ?? null);
});
