using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>What prints, in one word of a command line: dark, light, opaque, auto, or colours as <c>#1d2b45,#6d1f2c~12</c>.</summary>
internal static class PrintsWord
{
    public static Outcome<Prints> Read(string word)
    {
        switch (word)
        {
            case "dark":
                return new Prints.Dark();
            case "light":
                return new Prints.Light();
            case "opaque":
                return new Prints.Opaque();
            case "auto":
                return new Prints.Auto();
        }

        var parts = word.Split('~', 2);
        var colours = parts[0]
            .Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(FabricColour.Read)
            .ToArray();
        var tolerance = JobReader.UsualTolerance;
        if (
            colours.Length == 0
            || colours.Any(c => c is null)
            || (
                parts.Length == 2
                && !(
                    double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out tolerance)
                    && tolerance is > 0 and <= 100
                )
            )
        )
        {
            return new Fault(
                "--prints",
                $"\"{word}\" says not what prints.",
                "Say dark, light, opaque, auto, or colours such as '#1d2b45,navy~12' (tolerance after ~)."
            );
        }

        return new Prints.Colours([.. colours.Select(c => c!.Value)], tolerance);
    }
}
