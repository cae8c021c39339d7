using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>One artwork drawn at many sizes: what prints and its outlines are found once, only the dots are made anew.</summary>
internal sealed class SizedDrawing
{
    private readonly SourceArtwork _source;
    private readonly DesignRequest.Drawn _asked;
    private readonly (double Width, double Height) _frame;
    private readonly bool _cleared;
    private readonly Prints _prints;
    private readonly Sentence _because;
    private readonly InkPath? _path;

    /// <param name="source">The artwork.</param>
    /// <param name="asked">What of it prints, and how.</param>
    /// <param name="widthMm">Width at which what prints was chosen.</param>
    /// <param name="heightMm">The height that goes with it.</param>
    /// <param name="cleared">Whether the ground of the picture is taken out first.</param>
    public SizedDrawing(SourceArtwork source, DesignRequest.Drawn asked, double widthMm, double heightMm, bool cleared)
    {
        (_source, _asked, _frame, _cleared) = (source, asked, (widthMm, heightMm), cleared);
        (_prints, _because) = DrawnDesign.Choose(asked.Prints, source, widthMm, heightMm);
        _path = cleared
            ? null
            : source.Ink((colour, alpha) => PrintsRule.Strength(_prints, colour, alpha), widthMm, heightMm).Path;
    }

    /// <summary>The plane at a size of the same proportion.</summary>
    public DrawnDesign.Drawing At(double widthMm, double heightMm, double dotsPerMm)
    {
        if (_cleared)
        {
            return DrawnDesign.WithoutGround(_source, _asked, widthMm, heightMm, dotsPerMm)!;
        }

        if (_path is null)
        {
            var picture = _source.Draw(widthMm, heightMm, dotsPerMm);
            return DrawnDesign.Cut(picture, _prints, _asked, dotsPerMm, widthMm, heightMm, _because);
        }

        var (across, down) = (widthMm / _frame.Width, heightMm / _frame.Height);
        var path = _path.Map(p => new(p.X * across, p.Y * down));
        return new(InkRaster.Fill(path, widthMm, heightMm, dotsPerMm), null, path, _because);
    }
}
