namespace Coldpeel.Craft.Artwork;

/// <summary>Colours in the words of people who do not measure them.</summary>
internal static class ColourName
{
    /// <summary>A name that a person would use, by lightness, chroma and hue.</summary>
    public static string Of(Rgb colour)
    {
        var lab = Srgb.ToLab(colour);
        var chroma = Math.Sqrt((lab.A * lab.A) + (lab.B * lab.B));
        if (chroma < 10)
        {
            return lab.L switch
            {
                < 20 => "black",
                < 40 => "dark grey",
                < 65 => "grey",
                < 85 => "light grey",
                < 97 => "pale",
                _ => "white",
            };
        }

        var hue = ((Math.Atan2(lab.B, lab.A) * 180 / Math.PI) + 360) % 360;
        var name = hue switch
        {
            < 15 => "pink or red",
            < 50 => lab.L < 35 ? "brown" : "red",
            < 80 => lab.L < 50 ? "brown" : "orange",
            < 110 => "yellow",
            < 180 => "green",
            < 230 => "turquoise",
            < 310 => "blue",
            < 345 => "violet",
            _ => "pink or red",
        };
        return lab.L < 25 ? $"dark {name}"
            : lab.L > 88 && chroma < 30 ? $"pale {name}"
            : name;
    }
}
