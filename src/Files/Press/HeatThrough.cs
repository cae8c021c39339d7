using System.Text;
using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Files.Press.HeatChart;

namespace Coldpeel.Files.Press;

/// <summary>Temperature through the stack at chosen times.</summary>
internal static class HeatThrough
{
    /// <summary>Draws the lower chart, where times were chosen.</summary>
    public static void Draw(StringBuilder svg, HeatProblem problem, HeatAnswer answer)
    {
        var profiles = answer.Profiles;
        if (profiles.Length == 0)
        {
            return;
        }

        var names = problem.EveryLayer.Select(l => l.Name).ToList();
        var layers = profiles.SelectMany(p => p.Layers).Distinct().OrderBy(names.IndexOf).ToList();
        var band = (Right - Left) / layers.Count;
        var scale = Scale(profiles.SelectMany(p => p.Points.Select(q => q.Celsius)), TopThrough);
        Title(
            svg,
            TopThrough - 60,
            "Through the stack, from the upper plate down",
            "every layer is drawn equally wide"
        );
        for (var i = 0; i < layers.Count; i++)
        {
            var x = Left + (i * band);
            if (i % 2 == 1)
            {
                svg.Append(
                    I(
                        $"<rect x=\"{x:0.#}\" y=\"{TopThrough}\" width=\"{band:0.#}\" height=\"{PanelHeight}\" fill=\"{Raised}\"/>"
                    )
                );
            }

            var layer = problem.EveryLayer.First(l => l.Name == layers[i]);
            Text(svg, x + (band / 2), TopThrough - 24, Fit(layers[i], band), Ink, 13, "middle");
            Text(svg, x + (band / 2), TopThrough - 8, I($"{layer.ThicknessMm:0.###} mm"), Quiet, 12, "middle");
            if (layers[i] == problem.GlueLineBelow)
            {
                svg.Append(
                    I(
                        $"<line x1=\"{x + band:0.#}\" x2=\"{x + band:0.#}\" y1=\"{TopThrough}\" y2=\"{TopThrough + PanelHeight}\" stroke=\"{Accent}\" stroke-width=\"2\"/>"
                    )
                );
                Text(svg, x + band, TopThrough + PanelHeight + 20, "glue line", Accent, 13, "middle");
            }
        }

        Grid(svg, scale, TopThrough);
        var ends = new List<(double Y, string Name, bool Glue)>();
        for (var n = 0; n < profiles.Length; n++)
        {
            var last = Profile(svg, profiles[n], problem, layers, band, scale, n);
            ends.Add((last, I($"{profiles[n].TimeS:0.##} s"), false));
        }

        // Their names stand at the glue line, for that is where they are compared.
        var glue = layers.IndexOf(problem.GlueLineBelow);
        Ends(svg, ends, TopThrough, glue < 0 ? Right : Left + ((glue + 1) * band));
        Text(svg, Right + 14, TopThrough + 16, "names: seconds", Quiet, 13);
        Text(svg, Right + 14, TopThrough + 34, "since the start", Quiet, 13);
    }

    private static double Profile(
        StringBuilder svg,
        HeatProfile profile,
        HeatProblem problem,
        List<string> layers,
        double band,
        Vertical scale,
        int n
    )
    {
        var (path, depth, lastY, glueY, at) = (new StringBuilder(), 0.0, 0.0, (double?)null, 0);
        foreach (var name in profile.Layers)
        {
            var mm = problem.EveryLayer.First(l => l.Name == name).ThicknessMm;
            var x = Left + (layers.IndexOf(name) * band);
            // Points of this layer: the first at its upper face, then its cells, the last at its lower face.
            var first = true;
            for (; at < profile.Points.Length; at++)
            {
                var (d, celsius) = profile.Points[at];
                var share = Math.Clamp((d - depth) / mm, 0, 1);
                lastY = scale.Y(celsius);
                path.Append(path.Length == 0 ? 'M' : 'L').Append(I($"{x + (share * band):0.##} {lastY:0.##}"));
                if (!first && share >= 1)
                {
                    at++;
                    break;
                }

                first = false;
            }

            depth += mm;
            glueY = name == problem.GlueLineBelow ? lastY : glueY;
        }

        Stroke(svg, path.ToString(), false, Dashes[n % Dashes.Length]);
        return glueY ?? lastY;
    }
}
