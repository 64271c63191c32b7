/** English: laying the rails out. */
export const laying = {
  "rails.layout": "Lay out the rails",
  "rails.truing": "True the rails",
  "rails.hands": "With wet hands",
} as const;
