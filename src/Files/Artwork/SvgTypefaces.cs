using System.Text.RegularExpressions;
using System.Xml.Linq;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Findings;
using SkiaSharp;
using Svg.Skia.TypefaceProviders;

namespace Coldpeel.Files.Artwork;

/// <summary>Gives the text of one SVG its faces, and remembers which families it asked for in vain.</summary>
internal sealed partial class SvgTypefaces : ITypefaceProvider
{
    private readonly object _gate = new();
    private readonly SortedDictionary<string, string> _missing = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, SKTypeface?> _found = [];
    private readonly HashSet<string> _answeredLater = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Faces for the SVG under <paramref name="root"/>.</summary>
    public SvgTypefaces(XElement root)
    {
        // The drawing library asks for the families of a list one by one, then for the list as a whole. A missing name
        // is passed over only where a later name of its list is there; otherwise we must answer it ourselves.
        foreach (var names in Lists(root).Select(Split))
        {
            for (var i = 0; i < names.Length - 1; i++)
            {
                if (names.Skip(i + 1).Any(n => InstalledFaces.Has(n)))
                {
                    _answeredLater.Add(names[i]);
                }
            }
        }
    }

    /// <summary>What is set in another face than the artwork asks for, one sentence each.</summary>
    public IReadOnlyList<Sentence> Notes
    {
        get
        {
            lock (_gate)
            {
                return
                [
                    .. _missing.Select(m =>
                        m.Key.Length == 0
                            ? $"Text names no font; it is set in {m.Value}: ask for the text as outlines."
                            : $"Text asks for the font \"{m.Key}\", which is not on this computer; it is set in {m.Value}: ask for the text as outlines or install the font."
                    ),
                ];
            }
        }
    }

    public SKTypeface? FromFamilyName(
        string fontFamily,
        SKFontStyleWeight fontWeight,
        SKFontStyleWidth fontWidth,
        SKFontStyleSlant fontStyle
    )
    {
        lock (_gate)
        {
            var key = $"{fontFamily}|{fontWeight}|{fontWidth}|{fontStyle}";
            return _found.TryGetValue(key, out var known)
                ? known
                : _found[key] = Find(fontFamily, new SKFontStyle(fontWeight, fontWidth, fontStyle));
        }
    }

    private SKTypeface? Find(string list, SKFontStyle style)
    {
        var names = Split(list);
        foreach (var name in names)
        {
            if (InstalledFaces.Find(name, style) is { } face)
            {
                if (name != names[0])
                {
                    _missing[SvgDocumentCheck.Short(names[0])] = face.FamilyName;
                }

                return face;
            }
        }

        if (names.Length == 1 && _answeredLater.Contains(names[0]))
        {
            return null;
        }

        // "Default" and the empty name are the library's own questions, not the customer's words.
        if (names is not [] and not ["Default"])
        {
            _missing[SvgDocumentCheck.Short(names[0])] = InterFonts.Family;
        }

        return InstalledFaces.Inter(style);
    }

    private static string[] Split(string list) =>
        [.. list.Split(',').Select(n => n.Trim().Trim('"', '\'').Trim()).Where(n => n.Length > 0)];

    private static IEnumerable<string> Lists(XElement root)
    {
        foreach (var element in root.DescendantsAndSelf())
        {
            if (element.Attribute("font-family")?.Value is { } family)
            {
                yield return family;
            }

            var css = element.Name.LocalName == "style" ? element.Value : element.Attribute("style")?.Value ?? "";
            foreach (Match match in FamilyInCss().Matches(css))
            {
                yield return match.Groups[1].Value;
            }
        }
    }

    [GeneratedRegex(@"font-family\s*:\s*([^;}!]*)", RegexOptions.IgnoreCase)]
    private static partial Regex FamilyInCss();
}
