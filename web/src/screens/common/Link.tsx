/** A way to another screen: a real link, followed without a page load. */
import type { ComponentChildren } from "preact";
import { go } from "./route";

interface LinkProps {
  readonly to: string;
  readonly class?: string;
  readonly testid?: string;
  readonly label?: string;
  readonly current?: boolean;
  readonly children: ComponentChildren;
}

export function Link({ to, class: look = "", testid, label, current, children }: LinkProps) {
  const follow = (event: MouseEvent) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    go(to);
  };
  return (
    <a href={to} class={look} data-testid={testid} aria-label={label} aria-current={current ? "page" : undefined} onClick={follow}>
      {children}
    </a>
  );
}
