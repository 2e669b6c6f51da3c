/** How surfaces are lit and coloured. The light stands still beside the one who looks. */

export const SURFACE_VERTEX = /* glsl */ `
precision highp float;
uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
in vec3 position;
in vec4 shade;
in vec4 colour;
in float gap;
out vec3 vNormal;
out vec3 vColour;
out float vHollow;
out float vGap;

void main() {
  vNormal = mat3(modelViewMatrix) * shade.xyz;
  vHollow = shade.w;
  vColour = colour.rgb;
  vGap = gap;
  gl_Position = projectionMatrix * (modelViewMatrix * vec4(position, 1.0));
}
`;

const LIGHT = /* glsl */ `
precision highp float;
in vec3 vNormal;
in vec3 vColour;
in float vHollow;
in float vGap;
out vec4 colourOut;

vec3 facing() {
  vec3 n = normalize(vNormal);
  return n.z < 0.0 ? -n : n;
}

// A key light from above on the left, a weak one from the right, and light from all around, which
// reaches less of grooves and fossae.
float brightness(vec3 n) {
  float key = max(dot(n, vec3(-0.42, 0.56, 0.714)), 0.0);
  float fill = max(dot(n, vec3(0.78, -0.05, 0.62)), 0.0);
  float hollow = vHollow > 0.0 ? 1.0 - 0.42 * vHollow : 1.0 - 0.10 * vHollow;
  return (0.40 + 0.57 * key + 0.18 * fill) * hollow;
}
`;

export const SOLID_FRAGMENT = /* glsl */ `${LIGHT}
uniform sampler2D scale;
uniform float strength;
uniform float touching;

void main() {
  vec3 n = facing();
  vec3 base = vColour;
  float light = brightness(n);
  if (strength > 0.0 && vGap < 1.0) {
    float share = vGap * (65535.0 / 65534.0);
    vec4 gapColour = texture(scale, vec2((share * 255.0 + 0.5) / 256.0, 0.5));
    base = mix(base, gapColour.rgb, strength * gapColour.a);
    float edge = max(fwidth(share), 1e-4);
    float touch = 1.0 - smoothstep(touching, touching + edge, share);
    base = mix(base, vec3(0.0, 0.0, 0.02), strength * touch);
    light = mix(light, 0.45 + 0.6 * light, 0.5);
  }
  float shine = pow(max(dot(n, vec3(-0.226, 0.302, 0.926)), 0.0), 60.0);
  colourOut = vec4(base * min(light, 1.12) + vec3(0.10 * shine), 1.0);
}
`;

/** A tooth as it was: little more than its dark outline, so that what it is now is seen through it. */
export const BEFORE_FRAGMENT = /* glsl */ `${LIGHT}
void main() {
  float rim = 1.0 - facing().z;
  float opacity = 0.10 + 0.75 * rim * rim;
  colourOut = vec4(mix(vColour * 0.75, vec3(0.03, 0.16, 0.34), min(1.0, 1.4 * rim)), opacity);
}
`;

/** Clear where one looks straight at it, denser and darker towards its outline. */
export const GHOST_FRAGMENT = /* glsl */ `${LIGHT}
void main() {
  vec3 n = facing();
  float rim = 1.0 - n.z;
  float opacity = 0.16 + 0.68 * rim * rim;
  vec3 face = vColour * (0.55 + 0.45 * brightness(n)) * 0.88;
  colourOut = vec4(mix(face, vec3(0.20, 0.27, 0.35), min(1.0, 1.1 * rim)), opacity);
}
`;
