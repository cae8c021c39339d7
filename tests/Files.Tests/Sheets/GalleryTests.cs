using System.Diagnostics;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class GalleryTests
{
    [Fact]
    public void Gallery()
    {
        foreach (var dots in (bool[])[false, true, false, true])
        {
            var s = Crowded.Sheets(30, dots);
            var t = Stopwatch.StartNew();
            var a = SheetsPdf.Write(s, "Spring order, club kit");
            var ta = t.ElapsedMilliseconds;
            t.Restart();
            var b = TrimMapPdf.Write(s, "Spring order, club kit");
            var tb = t.ElapsedMilliseconds;
            File.WriteAllBytes($"/tmp/film/sheets-{dots}.pdf", a);
            File.WriteAllBytes($"/tmp/film/map-{dots}.pdf", b);
            File.AppendAllText(
                "/tmp/film/times.txt",
                $"{dots} pieces {s.Sum(x => x.Pieces.Length)} sheets {a.Length} B {ta} ms, map {b.Length} B {tb} ms\n"
            );
        }

        File.WriteAllBytes("/tmp/film/pic.png", SheetPicture.Encode(Crowded.Sheets(30)[0], 4, false));
        File.WriteAllBytes("/tmp/film/picd.png", SheetPicture.Encode(Crowded.Sheets(30, true)[0], 4, true));
    }
}
