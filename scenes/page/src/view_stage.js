/** Surfaces of both arches on the graphics card: one call for the crowns of an arch, one around. */

import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  DoubleSide,
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
import { STEPS, TOUCHING_MM, gapTexture } from "./view_gap_colours.js";
import { GHOST_FRAGMENT, SOLID_FRAGMENT, SURFACE_VERTEX } from "./view_shaders.js";

const ARCHES = ["upper", "lower"];
/** How far the nearest and the farthest drawn point may lie from the middle, mm. */
const REACH_MM = 400;
/** Drawn one after the other: what is solid, the depth of what is ghosted, then its colour. */
const ORDER = { solid: 0, depth: 1, ghost: 2 };
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

export class Stage {
  /** @throws {Error} where there is no WebGL. */
  constructor(holder) {
    this.holder = holder;
    this.scene = new Scene();
    this.eye = new OrthographicCamera(-1, 1, 1, -1, 0, 2 * REACH_MM);
    this.eye.matrixAutoUpdate = false;
    this.#makeMaterials();
    this.meshes = {};
    this.gaps = {};
    this.width = 1;
    this.height = 1;
    this.ratio = 1;
    this.#makeRenderer(false);
    this.software = this.#isSoftware();
  }

  #makeRenderer(antialias) {
    const canvas = document.createElement("canvas");
    this.renderer = new WebGLRenderer({ canvas, antialias, alpha: false, stencil: false });
    this.renderer.setClearColor(0xffffff, 1);
    this.renderer.info.autoReset = true;
    this.antialias = antialias;
    canvas.className = "casts-surfaces";
    canvas.setAttribute("aria-hidden", "true");
    const before = this.canvas;
    this.canvas = canvas;
    if (before) before.replaceWith(canvas);
    else this.holder.prepend(canvas);
    canvas.addEventListener("webglcontextlost", () => this.onLost?.());
    canvas.addEventListener("webglcontextrestored", () => this.onRestored?.());
  }

  /** Draw with smooth outlines from now on: needs a new drawing surface. */
  smoothOutlines() {
    const before = this.renderer;
    this.#makeRenderer(true);
    before.dispose();
    this.size(this.width, this.height, this.ratio);
  }

  #isSoftware() {
    const gl = this.renderer.getContext();
    const info = gl.getExtension("WEBGL_debug_renderer_info");
    return SOFTWARE.test(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  }

  #makeMaterials() {
    const scale = new DataTexture(gapTexture(), STEPS, 1, RGBAFormat);
    scale.minFilter = LinearFilter;
    scale.magFilter = LinearFilter;
    scale.needsUpdate = true;
    const material = (fragmentShader, strength, more) =>
      new RawShaderMaterial({
        glslVersion: GLSL3,
        vertexShader: SURFACE_VERTEX,
        fragmentShader,
        side: DoubleSide,
        depthFunc: LessEqualDepth,
        uniforms: {
          scale: { value: scale },
          strength: { value: strength },
          touching: { value: TOUCHING_MM },
        },
        ...more,
      });
    this.scale = scale;
    this.materials = {
      coloured: material(SOLID_FRAGMENT, 1, {}),
      plain: material(SOLID_FRAGMENT, 0, {}),
      depth: material(GHOST_FRAGMENT, 0, { colorWrite: false, transparent: true }),
      ghost: material(GHOST_FRAGMENT, 0, { transparent: true, depthWrite: false }),
    };
  }

  /**
   * Take over the surfaces of both arches.
   *
   * @param {{upper: object, lower: object}} casts crowns and what is around them, see `joinArch`.
   */
  setCasts(casts) {
    for (const mesh of Object.values(this.meshes)) {
      this.scene.remove(mesh);
      mesh.geometry.dispose();
    }
    this.meshes = {};
    for (const arch of ARCHES) {
      const teeth = geometry(casts[arch].teeth);
      this.gaps[arch] = teeth.getAttribute("gap");
      this.#add(`${arch} solid`, teeth, this.materials.plain, ORDER.solid);
      this.#add(`${arch} depth`, teeth, this.materials.depth, ORDER.depth);
      this.#add(`${arch} ghost`, teeth, this.materials.ghost, ORDER.ghost);
      this.#add(`${arch} around`, geometry(casts[arch].around), this.materials.plain, ORDER.solid);
    }
  }

  #add(name, shape, material, order) {
    const mesh = new Mesh(shape, material);
    mesh.frustumCulled = false;
    mesh.matrixAutoUpdate = false;
    mesh.renderOrder = order;
    this.meshes[name] = mesh;
    this.scene.add(mesh);
  }

  /** Take over the gaps of the vertices of an arch, or none. */
  setGaps(arch, gaps) {
    const attribute = this.gaps[arch];
    if (!attribute) return;
    if (gaps && gaps.length === attribute.array.length) attribute.array.set(gaps);
    else attribute.array.fill(FAR);
    attribute.needsUpdate = true;
  }

  /** Say how each arch is shown, and whether gaps are coloured. */
  setDisplay({ upper, lower, around, coloured }) {
    const shown = { upper, lower };
    for (const arch of ARCHES) {
      const how = shown[arch];
      const part = (name) => this.meshes[`${arch} ${name}`];
      if (!part("solid")) continue;
      part("solid").visible = how === "solid";
      part("solid").material = coloured ? this.materials.coloured : this.materials.plain;
      part("depth").visible = how === "ghosted";
      part("ghost").visible = how === "ghosted";
      part("around").visible = around && how === "solid";
    }
  }

  /** Say how far a whole gap map reaches, mm. */
  setLimit(limitMm) {
    this.materials.coloured.uniforms.touching.value = TOUCHING_MM / limitMm;
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

  size(width, height, ratio) {
    this.width = width;
    this.height = height;
    this.ratio = ratio;
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height);
  }

  /** Draw as seen by a camera. */
  draw(camera) {
    const { right, up, towards, centre } = camera;
    this.eye.matrix.set(
      right[0], up[0], -towards[0], centre[0] - REACH_MM * towards[0],
      right[1], up[1], -towards[1], centre[1] - REACH_MM * towards[1],
      right[2], up[2], -towards[2], centre[2] - REACH_MM * towards[2],
      0, 0, 0, 1,
    );
    this.eye.matrixWorldNeedsUpdate = true;
    const halfWidth = camera.width / 2 / camera.pxPerMm;
    const halfHeight = camera.height / 2 / camera.pxPerMm;
    this.eye.left = -halfWidth;
    this.eye.right = halfWidth;
    this.eye.top = halfHeight;
    this.eye.bottom = -halfHeight;
    this.eye.updateProjectionMatrix();
    this.renderer.render(this.scene, this.eye);
  }

  /** Wait until everything drawn so far is done. */
  finish() {
    const gl = this.renderer.getContext();
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, this.pixel ?? (this.pixel = new Uint8Array(4)));
  }

  dispose() {
    for (const mesh of Object.values(this.meshes)) mesh.geometry.dispose();
    for (const material of Object.values(this.materials)) material.dispose();
    this.scale.dispose();
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
