using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads the layers of a stack, from the library, from the file's own materials, or from bare figures.</summary>
internal sealed class StackLayers(double start, Action<string, string, string> fail)
{
    private readonly Dictionary<string, HeatMaterial> _own = new(StringComparer.Ordinal);

    /// <summary>The material of every layer that names one.</summary>
    public Dictionary<string, HeatMaterial> Of { get; } = new(StringComparer.Ordinal);

    /// <summary>Reads the file's own materials: fibres by their share, weight and thickness.</summary>
    public void Own(JsonElement root)
    {
        var list = root.TryGetProperty("x-materials", out var own) ? own.EnumerateArray().ToArray() : [];
        for (var i = 0; i < list.Length; i++)
        {
            var (at, name) = ($"/x-materials/{i}", list[i].Text("name"));
            var parts = ImmutableArray.CreateBuilder<(HeatMaterial, double)>();
            foreach (var part in list[i].GetProperty("of").EnumerateObject())
            {
                if (HeatMaterials.Find(part.Name) is not { Solid: not null } fibre)
                {
                    fail(
                        $"{at}/of{JsonText.Step(part.Name)}",
                        $"\"{part.Name}\" is no fibre or foam of the library.",
                        $"Make it of: {string.Join(", ", HeatMaterials.Names.Where(n => HeatMaterials.Find(n)!.Solid is not null))}."
                    );
                    return;
                }

                parts.Add((fibre, part.Value.GetDouble()));
            }

            if (Math.Abs(parts.Sum(p => p.Item2) - 1) > 0.005)
            {
                fail($"{at}/of", "the shares do not add up to 1.", "Give each as a part of one, by mass.");
                return;
            }

            var blend = HeatMaterial.Blend(
                name,
                parts.ToImmutable(),
                list[i].Number("gM2"),
                list[i].Number("thicknessMm")
            );
            if (blend is null)
            {
                fail(
                    $"{at}/gM2",
                    "so heavy and thin a sheet is denser than its own fibre.",
                    "Check grams a square metre and millimetres."
                );
                return;
            }

            if (HeatMaterials.Find(name) is not null || !_own.TryAdd(name, blend))
            {
                fail($"{at}/name", $"there is a material \"{name}\" already.", "Give yours another name.");
                return;
            }
        }
    }

    /// <summary>One layer.</summary>
    public HeatLayer Read(JsonElement e, string at)
    {
        var thickness = e.Number("thicknessMm");
        var material = Material(e, at, thickness);
        // Figures that the file gives itself come first.
        var k = e.NumberOrNull("kWmK") ?? material?.WmK.Value;
        var density = e.NumberOrNull("densityKgM3") ?? material?.DensityKgM3.Value;
        var heat = e.NumberOrNull("heatJkgK") ?? material?.HeatJkgK.Value;
        var (curveK, curveHeat) = (Curve(e, "x-kWmK", at), Curve(e, "x-heatJkgK", at));
        if ((k ?? curveK?.At(start)) is null || density is null || (heat ?? curveHeat?.At(start)) is null)
        {
            fail(
                at,
                "the layer's heat properties are not whole.",
                "Give \"material\", or all of kWmK, densityKgM3 and heatJkgK."
            );
        }

        if (material is not null)
        {
            Of[e.Text("name")] = material;
        }

        var water = e.NumberOrNull("x-water");
        return new(
            e.Text("name"),
            k ?? curveK?.At(start) ?? 1,
            density ?? 1,
            heat ?? curveHeat?.At(start) ?? 1,
            Length.FromMillimetres(thickness),
            Temperature.FromCelsius(e.NumberOrNull("startC") ?? start)
        )
        {
            ExactMm = thickness,
            WmKOf = curveK,
            HeatJkgKOf = curveHeat,
            Damp = water is { } share ? new HeatDamp(share) : null,
            // Figures of the file's own are those of the thickness as it lies: only what the library or a weight gives is squeezed.
            Squeeze =
                e.TryGetProperty("kWmK", out _) || e.TryGetProperty("densityKgM3", out _)
                    ? null
                    : material?.Squeeze(thickness),
        };
    }

    private HeatMaterial? Material(JsonElement e, string at, double thickness)
    {
        if (e.TextOrNull("material") is not { } name)
        {
            if (e.TryGetProperty("x-gM2", out _))
            {
                fail($"{at}/x-gM2", "a weight alone says nothing.", "Name a \"material\" beside it.");
            }

            return null;
        }

        if (!_own.TryGetValue(name, out var material) && (material = HeatMaterials.Find(name)) is null)
        {
            fail(
                $"{at}/material",
                $"\"{name}\" is not known.",
                $"Give kWmK, densityKgM3 and heatJkgK, or one of: {string.Join(", ", HeatMaterials.Names.Concat(_own.Keys))}."
            );
            return null;
        }

        if (e.NumberOrNull("x-gM2") is not { } weight)
        {
            return material;
        }

        if (material.Solid is null)
        {
            fail($"{at}/x-gM2", $"{name} is solid through.", "Give densityKgM3 instead.");
        }

        var weighed = material.Weighing(weight, thickness);
        if (weighed is null && material.Solid is not null)
        {
            fail(
                $"{at}/x-gM2",
                "so heavy and thin a sheet is denser than its own fibre.",
                "Check grams a square metre and millimetres."
            );
        }

        return weighed ?? material;
    }

    private HeatCurve? Curve(JsonElement e, string key, string at)
    {
        if (!e.TryGetProperty(key, out var list))
        {
            return null;
        }

        ImmutableArray<(double, double)> points =
        [
            .. list.EnumerateArray().Select(p => (p[0].GetDouble(), p[1].GetDouble())),
        ];
        if (points.Zip(points.Skip(1)).Any(p => p.Second.Item1 <= p.First.Item1) || points.Any(p => p.Item2 <= 0))
        {
            fail(
                $"{at}{JsonText.Step(key)}",
                "the curve's temperatures do not rise, or a value is not above zero.",
                "Give pairs of °C and value, coldest first."
            );
            return null;
        }

        var (least, most) = key == "x-kWmK" ? (0.001, 10000.0) : (1, 100000);
        if (points.Any(p => p.Item1 is not (>= -200 and <= 1000) || !(p.Item2 >= least && p.Item2 <= most)))
        {
            fail(
                $"{at}{JsonText.Step(key)}",
                "no layer has such a curve.",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Give temperatures from -200 to 1000 °C and values from {least} to {most}."
                )
            );
            return null;
        }

        return new(points);
    }
}
