using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>What the <c>sheets</c> verb tells beside the layout.</summary>
public sealed record LayoutFigures(double Seconds, double FirstSeconds, double DensityPercent, double UsedLastMm);

/// <summary>One film's problem and plan in a layout of several.</summary>
/// <param name="Problem">What was asked.</param>
/// <param name="Plan">Where all lies.</param>
/// <param name="Label">The label of a copy.</param>
/// <param name="Keep">What the shelf can keep of the last sheet; null for nothing.</param>
public sealed record LayoutPart(SheetProblem Problem, SheetPlan Plan, Func<Placed, string> Label, BoxMm? Keep = null);

/// <summary>Writes sheets.json, the layout in millimetres (docs/schemas/layout.schema.json).</summary>
public static class LayoutFile
{
    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The layout of one plan.</summary>
    public static string Write(
        SheetProblem problem,
        SheetPlan plan,
        Func<Placed, string> label,
        LayoutFigures? figures = null,
        IReadOnlyList<LayoutLeftOut>? unusable = null
    ) => Write([new(problem, plan, label, SheetRemnant.Of(problem, plan))], figures, unusable);

    /// <summary>The layout of several plans as one: pages run on; the gap told is the smallest.</summary>
    /// <param name="parts">The plans.</param>
    /// <param name="figures">What is told beside; null for nothing.</param>
    /// <param name="unusable">Copies of pieces that stand in no plan, for they cannot be laid as they are described.</param>
    public static string Write(
        IReadOnlyList<LayoutPart> parts,
        LayoutFigures? figures = null,
        IReadOnlyList<LayoutLeftOut>? unusable = null
    )
    {
        ArgumentNullException.ThrowIfNull(parts);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            json.WriteStartObject();
            if (figures is not null)
            {
                json.WriteNumber("seconds", Math.Round(figures.Seconds, 3));
                json.WriteNumber("firstSeconds", Math.Round(figures.FirstSeconds, 3));
                json.WriteNumber("densityPercent", Math.Round(figures.DensityPercent, 2));
                json.WriteNumber("usedLastMm", Math.Round(figures.UsedLastMm, 3));
            }

            json.WriteNumber("gapMm", parts.Count == 0 ? 0 : parts.Min(p => p.Problem.Gap.InMillimetres));
            Pieces(json, parts);
            Sheets(json, parts);
            json.WriteStartArray("unplaced");
            var leftOut = parts.SelectMany(part =>
                part.Plan.LeftOut.Select(l => new LayoutLeftOut(part.Problem.Pieces[l.Piece].Id, l.Copy, l.Why))
            );
            foreach (var left in leftOut.Concat(unusable ?? []))
            {
                json.WriteStartObject();
                json.WriteString("piece", left.Piece);
                json.WriteNumber("copy", left.Copy);
                json.WriteString("why", left.Why);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    /// <summary>The layout in a text that <see cref="Write(IReadOnlyList{LayoutPart}, LayoutFigures?, IReadOnlyList{LayoutLeftOut}?)"/> wrote.</summary>
    /// <exception cref="JsonException">It is none.</exception>
    public static Layout Read(string json) =>
        JsonSerializer.Deserialize<Layout>(json, JsonSerializerOptions.Web)
        ?? throw new JsonException("Nothing there.");

    private static void Pieces(Utf8JsonWriter json, IReadOnlyList<LayoutPart> parts)
    {
        json.WriteStartArray("pieces");
        foreach (var piece in parts.SelectMany(p => p.Problem.Pieces))
        {
            json.WriteStartObject();
            json.WriteString("id", piece.Id);
            json.WriteNumber("quantity", piece.Quantity);
            json.WritePropertyName("outline");
            Ring(json, piece.Outline.Outer);
            if (!piece.Outline.Holes.IsDefaultOrEmpty)
            {
                json.WriteStartArray("holes");
                foreach (var hole in piece.Outline.Holes)
                {
                    Ring(json, hole);
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Sheets(Utf8JsonWriter json, IReadOnlyList<LayoutPart> parts)
    {
        json.WriteStartArray("sheets");
        var page = 0;
        foreach (var part in parts)
        {
            for (var s = 0; s < part.Plan.Sheets.Length; s++)
            {
                var sheet = part.Plan.Sheets[s];
                json.WriteStartObject();
                json.WriteNumber("page", ++page);
                json.WriteNumber("widthMm", sheet.Width.InMillimetres);
                json.WriteNumber("heightMm", sheet.Height.InMillimetres);
                json.WriteNumber("marginMm", sheet.Margin.InMillimetres);
                json.WriteStartArray("placed");
                foreach (var placed in part.Plan.Placed.Where(p => p.Sheet == s))
                {
                    json.WriteStartObject();
                    json.WriteString("piece", part.Problem.Pieces[placed.Piece].Id);
                    json.WriteNumber("copy", placed.Copy);
                    json.WriteString("label", part.Label(placed));
                    json.WriteNumber("xMm", Math.Round(placed.Shift.X, 3));
                    json.WriteNumber("yMm", Math.Round(placed.Shift.Y, 3));
                    json.WriteNumber("turnDeg", placed.Turn.Degrees);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                LayoutCuts.Write(json, part, s, s == part.Plan.Sheets.Length - 1 ? part.Keep : null);
                json.WriteEndObject();
            }
        }

        json.WriteEndArray();
    }

    // A point on a line: raw, so that a long outline stays readable between the pieces.
    private static void Ring(Utf8JsonWriter json, ImmutableArray<PointMm> ring)
    {
        var text = new StringBuilder("[");
        foreach (var p in ring)
        {
            text.Append(text.Length > 1 ? ", " : "");
            text.Append(
                System.Globalization.CultureInfo.InvariantCulture,
                $"[{Math.Round(p.X, 6)}, {Math.Round(p.Y, 6)}]"
            );
        }

        json.WriteRawValue(text.Append(']').ToString());
    }
}
