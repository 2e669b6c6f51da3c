/** Surfaces of both arches on the graphics card: one call for the crowns of an arch, one around. */

import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  DoubleSide,
  FrontSide,
  GLSL3,
  LessEqualDepth,
  LinearFilter,
  Mesh,
  OrthographicCamera,
  RawShaderMaterial,
  RGBAFormat,
  Scene,
  WebGLRenderer,
} from "three";

import { FAR } from "./view_casts.js";
import { coarser } from "./view_coarse.js";
import { STEPS, TOUCHING_MM, gapTexture } from "./view_gap_colours.js";
import { BEFORE_FRAGMENT, GHOST_FRAGMENT, SOLID_FRAGMENT, SURFACE_VERTEX } from "./view_shaders.js";

const PAPER = 0xffffff;
const ARCHES = ["upper", "lower"];
/** How far the nearest and the farthest drawn point may lie from the middle, mm. */
const REACH_MM = 400;
/** Without a graphics card, surfaces in motion are drawn with fewer triangles; cubes of this, mm. */
const COARSE_AROUND_MM = 2.5;
const COARSE_CROWNS_MM = 0.9;
/** Crowns of an arch with fewer triangles than this are always drawn whole. */
const FINE_CROWNS = 12000;
/** Drawn one after the other: what is solid, the depth of what is ghosted, then its colour. */
const ORDER = { solid: 0, depth: 1, ghost: 2 };
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

export class Stage {
  /**
   * @param {HTMLElement} holder gets the canvas.
   * @param {string[]} gapScale colours from no gap to the limit.
   * @throws {Error} where there is no WebGL.
   */
  constructor(holder, gapScale) {
    this.holder = holder;
    this.scene = new Scene();
    this.eye = new OrthographicCamera(-1, 1, 1, -1, 0, 2 * REACH_MM);
    this.eye.matrixAutoUpdate = false;
    this.#makeMaterials(gapScale);
    this.meshes = {};
    this.gaps = {};
    this.width = 0;
    this.height = 0;
    this.ratio = 0;
    this.#makeRenderer(false);
    this.software = this.#isSoftware();
  }

  #makeRenderer(antialias) {
    const canvas = document.createElement("canvas");
    this.renderer = new WebGLRenderer({ canvas, antialias, alpha: false, stencil: false });
    this.renderer.setClearColor(PAPER, 1);
    this.antialias = antialias;
    canvas.className = "casts-surfaces";
    canvas.setAttribute("aria-hidden", "true");
    const before = this.canvas;
    this.canvas = canvas;
    if (before) before.replaceWith(canvas);
    else this.holder.prepend(canvas);
    canvas.addEventListener("webglcontextlost", () => {
      this.#release();
      this.onLost?.();
    });
    canvas.addEventListener("webglcontextrestored", () => {
      this.renderer.setClearColor(PAPER, 1);
      this.onRestored?.();
    });
  }

  /** Let go of everything on the graphics card; what is drawn again is sent there again. */
  #release() {
    this.#releaseShapes();
    for (const looks of Object.values(this.materials)) {
      for (const material of Object.values(looks)) material.dispose();
    }
    this.scale.dispose();
  }

  #releaseShapes() {
    for (const mesh of Object.values(this.meshes)) {
      mesh.userData.shapes.fine.dispose();
      mesh.userData.shapes.coarse.dispose();
    }
  }

  /** Draw with smooth outlines from now on: needs a new drawing surface. */
  smoothOutlines() {
    this.#release();
    const before = this.renderer;
    this.#makeRenderer(true);
    before.dispose();
    const { width, height, ratio } = this;
    this.width = 0;
    this.size(width, height, ratio);
  }

  #isSoftware() {
    const gl = this.renderer.getContext();
    const info = gl.getExtension("WEBGL_debug_renderer_info");
    return SOFTWARE.test(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  }

  #makeMaterials(gapScale) {
    const scale = new DataTexture(gapTexture(gapScale), STEPS, 1, RGBAFormat);
    scale.minFilter = LinearFilter;
    scale.magFilter = LinearFilter;
    scale.needsUpdate = true;
    const material = (fragmentShader, strength, more) =>
      new RawShaderMaterial({
        glslVersion: GLSL3,
        vertexShader: SURFACE_VERTEX,
        fragmentShader,
        depthFunc: LessEqualDepth,
        uniforms: {
          scale: { value: scale },
          strength: { value: strength },
          touching: { value: TOUCHING_MM },
        },
        ...more,
      });
    this.scale = scale;
    this.materials = {};
    for (const [sides, side] of [["open", DoubleSide], ["closed", FrontSide]]) {
      this.materials[sides] = {
        coloured: material(SOLID_FRAGMENT, 1, { side }),
        plain: material(SOLID_FRAGMENT, 0, { side }),
        depth: material(GHOST_FRAGMENT, 0, { side, colorWrite: false, transparent: true }),
        ghost: material(GHOST_FRAGMENT, 0, { side, transparent: true, depthWrite: false }),
        before: material(BEFORE_FRAGMENT, 0, { side, transparent: true, depthWrite: false }),
      };
    }
  }

  /**
   * Take over the surfaces of both arches.
   *
   * @param {{upper: object, lower: object}} casts crowns and what is around them, see `joinArch`.
   */
  setCasts(casts) {
    this.#releaseShapes();
    for (const mesh of Object.values(this.meshes)) this.scene.remove(mesh);
    this.meshes = {};
    for (const arch of ARCHES) {
      const { teeth, around, before } = casts[arch];
      const many = teeth.index.length / 3 > FINE_CROWNS;
      const crowns = this.#shapes(teeth, many ? COARSE_CROWNS_MM : null);
      this.gaps[arch] = { attribute: crowns.fine.getAttribute("gap"), order: teeth.order };
      this.#add(`${arch} solid`, crowns, teeth.closed, "plain", ORDER.solid);
      this.#add(`${arch} depth`, crowns, teeth.closed, "depth", ORDER.depth);
      this.#add(`${arch} ghost`, crowns, teeth.closed, "ghost", ORDER.ghost);
      const rest = this.#shapes(around, COARSE_AROUND_MM);
      this.#add(`${arch} around`, rest, around.closed, "plain", ORDER.solid);
      if (before) this.#add(`${arch} before`, this.#shapes(before, null), before.closed, "before", ORDER.ghost);
    }
  }

  /** A surface as it is, and with fewer triangles where that is of use. */
  #shapes(surface, cubeMm) {
    const fine = geometry(surface);
    if (!this.software || cubeMm === null) return { fine, coarse: fine };
    const coarse = new BufferGeometry();
    for (const [name, attribute] of Object.entries(fine.attributes)) {
      coarse.setAttribute(name, attribute);
    }
    const index = coarser(surface.positions, surface.index, surface.shade, cubeMm);
    coarse.setIndex(new BufferAttribute(index, 1));
    return { fine, coarse };
  }

  /** Draw with fewer triangles from now on, or with all. */
  setCoarse(isCoarse) {
    for (const mesh of Object.values(this.meshes)) {
      mesh.geometry = isCoarse ? mesh.userData.shapes.coarse : mesh.userData.shapes.fine;
    }
  }

  #add(name, shapes, closed, look, order) {
    const mesh = new Mesh(shapes.fine);
    mesh.userData.shapes = shapes;
    mesh.userData.materials = this.materials[closed ? "closed" : "open"];
    mesh.material = mesh.userData.materials[look];
    mesh.frustumCulled = false;
    mesh.matrixAutoUpdate = false;
    mesh.renderOrder = order;
    this.meshes[name] = mesh;
    this.scene.add(mesh);
  }

  /** Take over the gaps of the vertices of an arch, in the order of the message. */
  setGaps(arch, gaps) {
    const { attribute, order } = this.gaps[arch];
    const known = gaps.length === order.length;
    for (let v = 0; v < order.length; v += 1) attribute.array[v] = known ? gaps[order[v]] : FAR;
    attribute.needsUpdate = true;
  }

  /** Gaps of the vertices of an arch as they are shown, in the order of its surface. */
  gapsOf(arch) {
    return this.gaps[arch].attribute.array;
  }

  /** Say how each arch is shown, and whether gaps are coloured. */
  setDisplay({ upper, lower, around, before, coloured }) {
    const shown = { upper, lower };
    for (const arch of ARCHES) {
      const how = shown[arch];
      const part = (name) => this.meshes[`${arch} ${name}`];
      if (!part("solid")) continue;
      part("solid").visible = how === "solid";
      part("solid").material = part("solid").userData.materials[coloured ? "coloured" : "plain"];
      part("depth").visible = how === "ghosted";
      part("ghost").visible = how === "ghosted";
      part("around").visible = around && how === "solid";
      if (part("before")) part("before").visible = before && how !== "away";
    }
  }

  /** Say how far a whole gap map reaches, mm. */
  setLimit(limitMm) {
    for (const { coloured } of Object.values(this.materials)) {
      coloured.uniforms.touching.value = TOUCHING_MM / limitMm;
    }
  }

  /** Move the lower by a rigid motion, row by row. */
  setMove(move) {
    for (const [name, mesh] of Object.entries(this.meshes)) {
      if (name.startsWith("lower")) {
        mesh.matrix.set(...move);
        mesh.matrixWorldNeedsUpdate = true;
      }
    }
  }

  /** Take a size in pixels of the page; `ratio` is how many are drawn for one. */
  size(width, height, ratio) {
    if (width === this.width && height === this.height && ratio === this.ratio) return;
    this.width = width;
    this.height = height;
    this.ratio = ratio;
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height, false);
  }

  /** Whether the drawing surface is lost, for now. */
  get lost() {
    return this.renderer.getContext().isContextLost();
  }

  /** Draw as seen by the one who looks, a `Camera`. */
  draw(looking) {
    const { right, up, towards, centre } = looking;
    this.eye.matrix.set(
      right[0], up[0], -towards[0], centre[0] - REACH_MM * towards[0],
      right[1], up[1], -towards[1], centre[1] - REACH_MM * towards[1],
      right[2], up[2], -towards[2], centre[2] - REACH_MM * towards[2],
      0, 0, 0, 1,
    );
    this.eye.matrixWorldNeedsUpdate = true;
    const halfWidth = looking.width / 2 / looking.pxPerMm;
    const halfHeight = looking.height / 2 / looking.pxPerMm;
    this.eye.left = -halfWidth;
    this.eye.right = halfWidth;
    this.eye.top = halfHeight;
    this.eye.bottom = -halfHeight;
    this.eye.updateProjectionMatrix();
    this.renderer.render(this.scene, this.eye);
  }

  /** @returns {Promise<void>} when everything drawn so far is done; nothing waits meanwhile. */
  async done() {
    const gl = this.renderer.getContext();
    const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    gl.flush();
    while (fence && !gl.isContextLost()) {
      if (gl.getSyncParameter(fence, gl.SYNC_STATUS) === gl.SIGNALED) break;
      await new Promise((resolve) => {
        setTimeout(resolve, 1);
      });
    }
    gl.deleteSync(fence);
  }

  dispose() {
    this.#release();
    this.renderer.dispose();
    this.canvas.remove();
  }
}

function geometry(surface) {
  const shape = new BufferGeometry();
  shape.setAttribute("position", new BufferAttribute(surface.positions, 3));
  shape.setAttribute("shade", new BufferAttribute(surface.shade, 4, true));
  shape.setAttribute("colour", new BufferAttribute(surface.colours, 4, true));
  const gaps = new Uint16Array(surface.positions.length / 3).fill(FAR);
  shape.setAttribute("gap", new BufferAttribute(gaps, 1, true));
  shape.setIndex(new BufferAttribute(surface.index, 1));
  return shape;
}
