export * from "./length";
export * from "./shown";
export * from "./falls";
export * from "./weather";
