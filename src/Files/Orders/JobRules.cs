using System.Globalization;
using System.Text.Json;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Orders;

/// <summary>The rules of a job file that a schema cannot hold.</summary>
internal static class JobRules
{
    private static readonly string[] FontEndings = [".ttf", ".otf", ".ttc", ".otc", ".woff", ".woff2"];

    /// <summary>The first rule that is broken, or null.</summary>
    public static Fault? First(JsonText file, string folder) =>
        Head(file, folder) ?? Designs(file, folder) ?? Items(file, folder);

    private static Fault? Head(JsonText file, string folder)
    {
        var root = file.Root;
        if (
            !DateOnly.TryParseExact(
                root.Text("due"),
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out _
            )
        )
        {
            return file.Fault(
                "/due",
                $"{root.Text("due")} is no day of the calendar.",
                "Write year-month-day, like 2027-05-14."
            );
        }

        return Currencies.MinorUnits(root.Text("currency")) is null
            ? file.Fault(
                "/currency",
                $"\"{root.Text("currency")}\" is no currency we know.",
                "Write an ISO 4217 code, like EUR."
            )
            : PathFault(file, folder, root, "", "workshop");
    }

    private static Fault? Designs(JsonText file, string folder)
    {
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (design, at) in Each(file.Root, "/designs"))
        {
            var fault =
                Twice(file, seen, design, at, id => $"there are two designs called \"{id}\" (capitals do not count).")
                ?? PathFault(file, folder, design, at, "file")
                ?? Sizes(file, design, at)
                ?? Colours(file, design, at)
                ?? TonePoints.Fault(file, design, at, "toneCurve")
                ?? Font(file, folder, design, at)
                ?? Fill(file, design, at);
            if (fault is not null)
            {
                return fault;
            }
        }

        return null;
    }

    private static Fault? Items(JsonText file, string folder)
    {
        var designs = file.Root.All("designs", d => d.Text("id"));
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (item, at) in Each(file.Root, "/items"))
        {
            var fault =
                Twice(file, seen, item, at, id => $"there are two items called \"{id}\" (capitals do not count).")
                ?? Colour(file, item.Text("colour"), at + "/colour")
                ?? PathFault(file, folder, item, at, "roster")
                ?? Placements(file, item, at, designs);
            if (fault is not null)
            {
                return fault;
            }
        }

        return null;
    }

    private static Fault? Placements(JsonText file, JsonElement item, string at, IReadOnlyCollection<string> designs)
    {
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (placement, here) in Each(item, "/placements", at))
        {
            var design = placement.Text("design");
            if (!designs.Contains(design))
            {
                return file.Fault(
                    here + "/design",
                    $"the job has no design \"{design}\".",
                    $"It has {Closest.Listed(design, designs)}: use one of these, or add yours to designs."
                );
            }

            if (!taken.Add(placement.Text("at")))
            {
                return file.Fault(
                    here + "/at",
                    $"two designs lie at the same place, \"{placement.Text("at")}\".",
                    "Give one of them another place, or draw the two as one design."
                );
            }
        }

        return null;
    }

    private static Fault? Twice(
        JsonText file,
        HashSet<string> seen,
        JsonElement e,
        string at,
        Func<string, Sentence> what
    ) => seen.Add(e.Text("id")) ? null : file.Fault(at + "/id", what(e.Text("id")), "Give each a name of its own.");

    private static Fault? Sizes(JsonText file, JsonElement design, string at) =>
        design.TryGetProperty("widthMm", out _) && design.TryGetProperty("heightMm", out _)
            ? file.Fault(
                at + "/heightMm",
                "width and height are both given, and together they may distort the artwork.",
                "Keep one: the other follows from the artwork."
            )
            : null;

    private static Fault? Colours(JsonText file, JsonElement design, string at) =>
        design.TryGetProperty("prints", out var prints) && prints.ValueKind == JsonValueKind.Object
            ? prints
                .GetProperty("colours")
                .EnumerateArray()
                .Select(
                    (c, i) =>
                        Colour(
                            file,
                            c.GetString()!,
                            string.Create(CultureInfo.InvariantCulture, $"{at}/prints/colours/{i}")
                        )
                )
                .FirstOrDefault(f => f is not null)
            : null;

    private static Fault? Colour(JsonText file, string colour, string at) =>
        FabricColour.Read(colour) is not null
            ? null
            : file.Fault(
                at,
                $"\"{colour}\" is no colour we know.",
                $"Write #rrggbb or a CSS colour name; alike are {Closest.Listed(colour, Closest.Order(colour, FabricColour.Names).Take(3))}."
            );

    private static Fault? Font(JsonText file, string folder, JsonElement design, string at) =>
        design.TryGetProperty("lettering", out var lettering)
        && (
            FontEndings.Any(e => lettering.Text("font").EndsWith(e, StringComparison.OrdinalIgnoreCase))
            || lettering.Text("font").AsSpan().ContainsAny('/', '\\')
        )
            ? PathFault(file, folder, lettering, at + "/lettering", "font")
            : null;

    private static Fault? Fill(JsonText file, JsonElement design, string at) =>
        design.TryGetProperty("lettering", out var lettering)
        && lettering.TextOrNull("fit") == "fill"
        && lettering.NumberOrNull("maxWidthMm") is null
            ? file.Fault(
                at + "/lettering/fit",
                "the text is to fill a width, and none is given.",
                "Add maxWidthMm, or leave fit out."
            )
            : null;

    private static Fault? PathFault(JsonText file, string folder, JsonElement e, string at, string key) =>
        e.TextOrNull(key) is { } path && InsideFolder.Fault(folder, path) is var (what, mend)
            ? file.Fault($"{at}/{key}", what, mend)
            : null;

    private static IEnumerable<(JsonElement Element, string At)> Each(JsonElement e, string list, string at = "") =>
        e.GetProperty(list[1..])
            .EnumerateArray()
            .Select((x, i) => (x, string.Create(CultureInfo.InvariantCulture, $"{at}{list}/{i}")));
}
