using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Artwork;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Artwork;

/// <summary>The artwork of all orders, and one of it with its orders.</summary>
internal static class AllArtworkRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/artwork", All);
        app.MapGet("/artwork/{id:int}", One);
    }

    private static RazorComponentResult All(HttpContext context, OpenedWorkshop workshop)
    {
        var words = Pages.Words(context);
        var (lines, next) = new ListArtwork(workshop).Page(words, context.Request.Query["after"]);
        return Pages.Of<AllArtworkPage>(
            new
            {
                Lines = (IReadOnlyList<ArtworkLine>)lines,
                Next = next,
                Words = words,
            }
        );
    }

    private static RazorComponentResult One(int id, HttpContext context, OpenedWorkshop workshop)
    {
        int? before = int.TryParse(
            context.Request.Query["before"],
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : null;
        return new ListArtwork(workshop).One(id, before) is var (line, uses, next)
            ? Pages.Of<OneArtworkPage>(
                new
                {
                    Line = line,
                    Uses = (IReadOnlyList<ArtworkUse>)uses,
                    Next = next,
                }
            )
            : Pages.Missing(LayoutWords.NoPage);
    }
}
