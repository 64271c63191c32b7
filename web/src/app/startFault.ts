/** Whether the start failed before the stored records were on show. */
import { signal } from "@preact/signals";

export const startFault = signal(false);
