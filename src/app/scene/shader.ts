import { edgeSectors, fadeFrom, fadeTo } from '../plate/imageEdge.ts';

/** Over so many CSS pixels what fades beyond the image is gone at the latest where its pane ends. */
const edgePx = 30;

export const vertexShader = /* glsl */ `
uniform vec4 grid;        // left, top, 1 / (width · pitch), 1 / (height · pitch)
uniform float halfCell;
uniform mat4 plateFromFace;
out vec2 vCell;
out vec2 vPlate;
void main() {
  vCell = vec2((position.x - grid.x + halfCell) * grid.z, (grid.y - position.y + halfCell) * grid.w);
  vPlate = (plateFromFace * vec4(position, 1.0)).xy;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

/**
 * Light from the stored normal picture: the cost of a frame depends on the pixels, not on the scan. Diffuse light
 * (Lambert) from one lamp, a little sheen (half-vector), light from the sky; the exposure rises as the lamp sinks, as a
 * photographer's would. Shadows are cast by walking through the stored heights toward the lamp.
 */
export const fragmentShader = /* glsl */ `
precision highp float;
uniform sampler2D relief;
uniform sampler2D mask;
uniform sampler2D differences;
uniform mat3 turn;          // plate ← face frame
uniform vec3 lamp;          // toward the lamp, plate frame
uniform vec3 eye;
uniform vec4 grid;
uniform vec4 differenceGrid;
uniform float showDifferences;
uniform float rangeMm;
uniform int shadowSteps;
uniform float reachMm;
uniform vec3 dark;
uniform vec3 light;
uniform vec3 scale[26];     // evenly from −end to just below zero, then from zero to +end
uniform vec3 ink;
uniform float hatchPx;
uniform float imageEdge[${edgeSectors}]; // mm from the plate's middle, every ${360 / edgeSectors}° clockwise from y up
uniform float edgeReach;
uniform float fade;
uniform vec2 paneEnds;      // lower and upper end of the pane, pixels of the picture
uniform float cut;          // share of the edge within which alone is painted; negative: everywhere
in vec2 vCell;
in vec2 vPlate;
out vec4 paint;

vec3 scaleAt(float part) {
  float at = min(1.0, abs(part)) * 12.0;
  int low = int(min(11.0, floor(at)));
  int first = part < 0.0 ? 12 : 13;
  int side = part < 0.0 ? -1 : 1;
  return mix(scale[first + side * low], scale[first + side * (low + 1)], at - float(low));
}

float edgeToward(vec2 at) {
  float turn = mod(atan(at.x, at.y) / 6.2831853 * ${edgeSectors}.0 + ${edgeSectors}.0, ${edgeSectors}.0);
  int low = int(floor(turn));
  int next = low + 1 >= ${edgeSectors} ? 0 : low + 1;
  return mix(imageEdge[low], imageEdge[next], turn - float(low));
}

float within(vec2 at) {
  if (fade < 0.5 && cut < 0.0) return 1.0;
  float edge = edgeToward(at);
  if (cut >= 0.0 && length(at) > cut * edge) return 0.0;
  if (fade < 0.5) return 1.0;
  float beyond = (length(at) - edge) / edgeReach;
  float there = 1.0 - smoothstep(${fadeFrom.toFixed(3)}, ${fadeTo.toFixed(3)}, beyond);
  // What fades away does not end in a straight line where the pane does.
  float room = min(gl_FragCoord.y - paneEnds.x, paneEnds.y - gl_FragCoord.y) / hatchPx;
  return beyond > 0.0 ? there * smoothstep(0.0, ${edgePx.toFixed(1)}, room) : there;
}

float lit(vec3 toLamp, float height, float side) {
  if (shadowSteps == 0 || length(toLamp.xy) < 1e-4) return 1.0;
  float shade = 1.0;
  vec2 across = vec2(toLamp.x * grid.z, -toLamp.y * grid.w);
  float rise = toLamp.z;
  float span = length(toLamp.xy);
  for (int i = 1; i <= 64; i++) {
    if (i > shadowSteps) break;
    float part = float(i) / float(shadowSteps);
    float t = reachMm * part * part / span;
    vec2 at = vCell + across * t;
    float covered = texture(mask, at).r;
    if (covered < 0.5) break; // beyond the edge nothing casts
    float over = (texture(relief, at).a / covered - (height + rise * t)) * side;
    shade = min(shade, 1.0 - clamp(over / (0.04 + 0.12 * t * span), 0.0, 1.0));
  }
  return shade;
}

void main() {
  vec2 where = texture(mask, vCell).rg;
  float covered = where.r;
  float there = smoothstep(0.38, 0.62, where.g) * step(0.02, covered) * within(vPlate);
  if (there < 0.02) discard;
  // Cells without data hold zeros, so dividing by the covered share gives the mean of those with data.
  vec4 cell = texture(relief, vCell) / covered;
  vec3 normal = turn * normalize(vec3(cell.xy, 1.0));
  float side = 1.0;
  if (normal.z < 0.0) { normal = -normal; side = -1.0; }
  float sky = side > 0.0 ? cell.z : 1.0 - cell.z;
  float facing = max(0.0, dot(normal, lamp));
  vec3 toLamp = transpose(turn) * lamp;
  float shadow = lit(toLamp, cell.a, side);
  float exposure = 0.62 / pow(max(0.06, lamp.z), 0.72);
  float sheen = pow(max(0.0, dot(normal, normalize(lamp + eye))), 26.0) * 0.16;
  float brightness = 0.06 + 0.26 * (sky - 0.5) + 0.07 * normal.z + facing * exposure * mix(0.22, 1.0, shadow) * 1.16
    + sheen * shadow;
  float tone = 1.0 - exp(-1.3 * max(0.0, brightness));
  vec3 colour = mix(dark, light, tone);
  if (showDifferences > 0.5) {
    vec2 at = vec2((vPlate.x - differenceGrid.x) * differenceGrid.z, (differenceGrid.y - vPlate.y) * differenceGrid.w);
    bool inside = all(greaterThan(at, vec2(0.0))) && all(lessThan(at, vec2(1.0)));
    vec4 value = inside ? texture(differences, at) : vec4(0.0);
    float grey = dot(colour, vec3(0.30, 0.59, 0.11));
    if (value.a < 0.5) {
      vec2 p = gl_FragCoord.xy;
      float stripe = mod(p.x + p.y, 7.0 * hatchPx);
      colour = mix(vec3(grey), ink, stripe < 1.3 * hatchPx ? 0.62 : 0.0);
    } else {
      float d = value.r / value.a;
      float level = value.g / value.a;
      float seen = smoothstep(level * 0.98, level * 1.02 + 1e-5, abs(d));
      vec3 hue = scaleAt(d / rangeMm);
      colour = mix(vec3(grey), hue * (0.42 + 0.68 * tone), seen);
    }
  }
  paint = vec4(colour, 1.0) * there;
}`;
