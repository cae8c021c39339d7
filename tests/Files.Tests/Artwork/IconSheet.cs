using System.Globalization;
using System.Text;
using System.Xml.Linq;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Many square icons on one sheet, so that the other renderer is started once for all of them.</summary>
internal static class IconSheet
{
    private const int Side = 5;

    /// <summary>Icons on a sheet at most.</summary>
    public const int Most = Side * Side;

    /// <summary>What librsvg draws of each icon in a square of so many dots.</summary>
    public static List<byte[]> ByRsvg(IReadOnlyList<byte[]> icons, int dots)
    {
        XNamespace svg = "http://www.w3.org/2000/svg";
        var size = (Side * dots).ToString(CultureInfo.InvariantCulture);
        var sheet = new XElement(
            svg + "svg",
            new XAttribute("width", size),
            new XAttribute("height", size),
            new XAttribute("viewBox", $"0 0 {size} {size}")
        );
        var ids = new HashSet<string>();
        for (var i = 0; i < icons.Count; i++)
        {
            var icon = XDocument.Parse(Encoding.UTF8.GetString(icons[i])).Root!;

            // Names and styles would reach the other icons of the sheet.
            Assert.DoesNotContain(icon.DescendantsAndSelf(), e => e.Name.LocalName == "style");
            Assert.All(icon.Descendants().Attributes("id"), id => Assert.True(ids.Add(id.Value), id.Value));
            Assert.NotNull(icon.Attribute("viewBox"));
            icon.SetAttributeValue("x", i % Side * dots);
            icon.SetAttributeValue("y", i / Side * dots);
            icon.SetAttributeValue("width", dots);
            icon.SetAttributeValue("height", dots);
            sheet.Add(icon);
        }

        var file = Path.Combine(Place.NewFolder(), "sheet.svg");
        sheet.Save(file);
        var (width, _, dark) = Drawings.ByRsvg(file, Side * dots, Side * dots);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        return
        [
            .. Enumerable.Range(0, icons.Count).Select(i => Cut(dark, width, i % Side * dots, i / Side * dots, dots)),
        ];
    }

    private static byte[] Cut(byte[] plane, int width, int left, int top, int dots)
    {
        var cut = new byte[dots * dots];
        for (var y = 0; y < dots; y++)
        {
            plane.AsSpan(((top + y) * width) + left, dots).CopyTo(cut.AsSpan(y * dots));
        }

        return cut;
    }
}
