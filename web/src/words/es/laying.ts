/** Spanish: laying the rails out. */
export const laying = {
  "rails.layout": "Trazar las maestras",
  "rails.truing": "Nivelar las maestras",
  "rails.hands": "Con manos mojadas",
} as const;
