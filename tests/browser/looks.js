({
  visible(box) {
    return box.checkVisibility({ visibilityProperty: true }) && box.getBoundingClientRect().width > 0;
  },

  /** Buttons, links and fields narrower or lower than `least` px. */
  smallTargets(least) {
    return [...document.querySelectorAll("a[href], button, input, select, [role=button]")]
      .filter((box) => this.visible(box))
      .map((box) => ({ name: box.dataset.testid ?? box.className, size: box.getBoundingClientRect() }))
      .filter(({ size }) => size.width < least - 0.5 || size.height < least - 0.5)
      .map(({ name, size }) => `${name}: ${Math.round(size.width)} x ${Math.round(size.height)}`);
  },

  /** Whether something around the box scrolls or clips what is too wide, itself within the window. */
  isHeld(box) {
    for (let around = box.parentElement; around && around !== document.body; around = around.parentElement) {
      const clips = /auto|scroll|hidden|clip/.test(getComputedStyle(around).overflowX);
      if (clips && around.getBoundingClientRect().right <= innerWidth + 1) return true;
    }
    return false;
  },

  isCut(box) {
    const { display, textOverflow } = getComputedStyle(box);
    return display !== "inline" && textOverflow !== "ellipsis" && box.scrollWidth > box.clientWidth + 1;
  },

  /** What is wider than the window, and text cut at its own box. */
  stickingOut() {
    const all = [...document.querySelectorAll("body *")].filter((box) => !box.closest("svg") && this.visible(box));
    const out = all.filter((box) => box.getBoundingClientRect().right > innerWidth + 1 && !this.isHeld(box));
    const cut = all.filter((box) => box.matches("button, a, p, h1, h2, h3, dt, dd, td, th, .number, .typed") && this.isCut(box));
    const page = document.documentElement.scrollWidth > innerWidth ? ["the page itself"] : [];
    return [...page, ...out.map((box) => `out: ${box.className}`), ...cut.map((box) => `cut: ${box.textContent}`)];
  },

  numbers(colour) {
    return colour.match(/[\d.]+/g).map(Number);
  },

  luminance([red, green, blue]) {
    const light = (part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4);
    return 0.2126 * light(red) + 0.7152 * light(green) + 0.0722 * light(blue);
  },

  /** The first ground under the text that is not seen through. */
  ground(box) {
    for (let under = box; under; under = under.parentElement) {
      const colour = this.numbers(getComputedStyle(under).backgroundColor);
      if ((colour[3] ?? 1) === 1) return colour;
    }
    return [255, 255, 255];
  },

  isFaded(box) {
    for (let around = box; around; around = around.parentElement) if (Number(getComputedStyle(around).opacity) < 1) return true;
    return false;
  },

  contrast(box) {
    const [ink, paper] = [this.numbers(getComputedStyle(box).color), this.ground(box)].map((colour) => this.luminance(colour));
    return (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
  },

  textNodes() {
    const nodes = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) nodes.push(node);
    return nodes.filter((node) => node.textContent.trim() && !node.parentElement.closest("script, style") && this.visible(node.parentElement));
  },

  /** Texts below the ratio; drawings and sleeping buttons are not measured. */
  faintText(least) {
    const texts = this.textNodes().filter((node) => !node.parentElement.closest("svg, :disabled"));
    const faint = texts.filter(({ parentElement: box }) => this.contrast(box) < least || this.isFaded(box));
    return { seen: texts.length, found: faint.map((node) => node.textContent.trim()) };
  },

  /** Every text a person sees or hears, apart from the published sources, which speak for themselves. */
  words() {
    const seen = this.textNodes().filter((node) => !node.parentElement.closest("[data-testid=explain-source], [translate=no]"));
    const heard = ["aria-label", "title", "placeholder"].flatMap((name) =>
      [...document.querySelectorAll(`[${name}]`)].map((box) => box.getAttribute(name)));
    return [...seen.map((node) => node.textContent), ...heard].map((text) => text.trim()).filter((text) => text !== "");
  },

  /** The ring round what has the focus, px; and what has it. */
  focused() {
    const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement);
    const ring = outlineStyle === "none" ? 0 : parseFloat(outlineWidth);
    return [document.activeElement.dataset.testid ?? document.activeElement.className, ring];
  },
})
