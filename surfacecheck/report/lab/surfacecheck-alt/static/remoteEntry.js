// Says the pictures of a notebook in words: JupyterLab's own makers of pictures leave their alt away.
// Written by hand and served as it stands. JupyterLab lends its modules (init), then asks for the extension (get).
(() => {
  const NAME = "surfacecheck-alt";
  const UNKNOWN = "Picture that is not described";
  const MAKERS = { png: "imageRendererFactory", svg: "svgRendererFactory" };
  let lent = {};

  /** One of JupyterLab's modules: of several versions the one in use, if there is one. */
  async function borrow(name) {
    const versions = Object.values(lent[name]);
    const chosen = versions.find((one) => one.loaded) ?? versions[0];
    return (await chosen.get())();
  }

  /** What a picture shows: the words kept with it, else what it prints as text; a bare "<Figure ...>" says nothing. */
  function words(model, kind) {
    const kept = model.metadata[kind]?.alt;
    if (typeof kept === "string" && kept.trim()) return kept.trim();
    const printed = [model.data["text/plain"] ?? ""].flat().join("").trim();
    const said = printed.replace(/^<picture: (.*)>$/s, "$1");
    return said === printed && /^(<.*>)?$/s.test(said) ? UNKNOWN + (said && `: ${said.slice(1, -1)}`) : said;
  }

  /** The same maker, with words once a picture is drawn: size, ground and all else stay as they are. */
  function described(maker) {
    const createRenderer = (options) => {
      const made = maker.createRenderer(options), draw = made.renderModel.bind(made);
      made.renderModel = async (model, ...more) => {
        await draw(model, ...more);
        for (const picture of made.node.querySelectorAll("img")) picture.alt = words(model, options.mimeType);
      };
      return made;
    };
    return { ...maker, createRenderer };
  }

  async function extension() {
    const makers = await borrow("@jupyterlab/rendermime");
    const parts = Object.entries(MAKERS).map(([kind, name]) => (
      { id: `${NAME}:${kind}`, rendererFactory: described(makers[name]), dataType: "string" }));
    return { __esModule: true, default: parts };
  }

  (window._JUPYTERLAB ??= {})[NAME] = {
    init(scope) { lent = scope; },
    async get() {
      const made = await extension();
      return () => made;
    },
  };
})();
