// What a test asks of a page that is open: each answer is plain data, and an empty list means nothing to complain of.
const measures = (() => {
  const all = (what, inside = document) => [...inside.querySelectorAll(what)];
  const seen = (one) => one.checkVisibility({ visibilityProperty: true })
    && [...one.getClientRects()].some((box) => box.width && box.height);

  /** Every piece of text that is drawn: its words, the element that holds it and where it stands. */
  function texts(inside = document.body) {
    const walker = document.createTreeWalker(inside, NodeFilter.SHOW_TEXT);
    const found = [];
    while (walker.nextNode()) {
      const node = walker.currentNode, holder = node.parentElement, range = document.createRange();
      if (!node.data.trim() || !seen(holder)) continue;
      range.selectNodeContents(node);
      const box = range.getBoundingClientRect();
      if (box.width && box.height) found.push({ words: node.data.trim(), holder, box });
    }
    return found;
  }

  /** Height of the letters as they are drawn: the computed size times the scale of the picture they stand in. */
  function size(holder) {
    const own = parseFloat(getComputedStyle(holder).fontSize), matrix = holder.getScreenCTM && holder.getScreenCTM();
    return matrix ? own * Math.sqrt(Math.abs(matrix.a * matrix.d - matrix.b * matrix.c)) : own;
  }

  /** Whether something around it scrolls sideways by itself. */
  function held(one) {
    for (let up = one.parentElement; up && up !== document.body; up = up.parentElement) {
      if (["auto", "scroll"].includes(getComputedStyle(up).overflowX)) return true;
    }
    return false;
  }

  const backgrounds = (one) => {
    const found = [];
    for (let up = one; up; up = up.parentElement) {
      const style = getComputedStyle(up);
      found.push(style.backgroundImage === "none" ? style.backgroundColor : style.backgroundImage);
    }
    return found;
  };

  const stops = () => all("a[href], summary, button, input, select, textarea, [tabindex='0']").filter(seen);

  /** A mark without size at the upper or lower edge of a block; the PDF then says on which page that edge is. */
  function mark(block, edge, name) {
    let holder = block.matches("tr") ? block.cells[0] : block;
    if (block.matches("details")) {
      const last = block.lastElementChild;
      holder = edge === "bottom" && seen(last) ? last : block.querySelector("summary");
    }
    if (getComputedStyle(holder).position === "static") holder.style.position = "relative";
    const place = document.createElement("i"), link = document.createElement("a");
    place.id = name;
    place.style.cssText = `position:absolute;left:0;${edge}:1px;width:1px;height:1px`;
    link.href = `#${name}`;
    link.style.display = "none";
    holder.append(place);
    document.body.append(link);
  }

  return {
    open(how) { for (const one of all("details")) one.open = how; },
    width: () => Math.max(document.documentElement.scrollWidth, document.body.scrollWidth),
    reaching: (width) => all("body *").filter((one) => seen(one) && !held(one)
      && one.getBoundingClientRect().right + scrollX > width + 0.5)
      .map((one) => `${one.tagName} ${(one.textContent || "").trim().slice(0, 40)}`),
    small: (least) => texts().filter((text) => size(text.holder) < least)
      .map((text) => `${size(text.holder).toFixed(2)} px: ${text.words.slice(0, 40)}`),
    count: () => texts().length,
    headings: () => all("h1, h2, h3, h4, h5, h6").filter(seen).map((one) => [Number(one.tagName[1]), one.textContent]),
    pictures: () => all("svg, img, canvas, object, picture").filter((one) => seen(one)
      && !one.parentElement.closest("svg")).length,
    colours: () => texts().filter((text) => !text.holder.closest("svg")).map((text) =>
      [text.words.slice(0, 40), getComputedStyle(text.holder).color, backgrounds(text.holder)]),
    /** Mark the pictures to look at: those with words, not the small maps. */
    choose() {
      for (const one of all("svg:not(svg svg)").filter(seen)) if (texts(one).length) one.dataset.chosen = "";
    },
    /** Words of a picture, their colour, and the box they stand in, from the upper left of the picture. */
    labels(picture) {
      const from = picture.getBoundingClientRect();
      return texts(picture).map(({ words, holder, box }) => {
        const { fill, opacity, fillOpacity } = getComputedStyle(holder);
        return [words, fill, opacity * fillOpacity, [box.x - from.x, box.y - from.y, box.width, box.height]];
      });
    },
    /** Number every place the keyboard must reach, in the order of the page. */
    number() {
      stops().forEach((one, i) => { one.dataset.stop = i; });
      return stops().length;
    },
    /** Where the keyboard is: its number, and whether a frame shows it. */
    where() {
      const one = document.activeElement;
      if (!one || one === document.body) return null;
      const { outlineStyle, outlineWidth } = getComputedStyle(one);
      const box = one.getBoundingClientRect();
      return {
        stop: Number(one.dataset.stop ?? -1), what: `${one.tagName} ${one.textContent.trim().slice(0, 40)}`,
        framed: outlineStyle !== "none" && parseFloat(outlineWidth) >= 1,
        inView: box.bottom > 0 && box.top < innerHeight,
      };
    },
    /** Mark the edges of what must not be cut, and of headings and what follows them; give what each mark is. */
    blocks(what) {
      const found = {};
      all(what).filter(seen).forEach((one, i) => {
        found[`block-${i}`] = `${one.tagName} ${one.textContent.trim().slice(0, 40)}`;
        mark(one, "top", `block-${i}-a`);
        mark(one, "bottom", `block-${i}-b`);
      });
      all("h1, h2, h3, caption, details[open] > summary").filter(seen).forEach((one, i) => {
        const after = [];
        for (let next = one.nextElementSibling; next; next = next.nextElementSibling) if (seen(next)) after.push(next);
        const order = (block) => Number(getComputedStyle(block).order);
        let next = after.sort((a, b) => order(a) - order(b))[0];  // on paper a table stands before its pictures
        if (next && next.matches("thead")) next = next.rows[0];
        if (!next) return;
        found[`heading-${i}`] = one.textContent.trim().slice(0, 40);
        mark(one, "bottom", `heading-${i}-a`);
        mark(next, "top", `heading-${i}-b`);
      });
      return found;
    },
  };
})();
