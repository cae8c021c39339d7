using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Orders;

/// <summary>The frame of every form that makes an order anew: it must be one of our own, the work takes long, and then the browser goes on or sees why not.</summary>
/// <param name="Context">The request.</param>
/// <param name="Tokens">What our own forms are known by.</param>
/// <param name="Refuse">The page with the sentence that says why not.</param>
/// <param name="Then">Where the browser goes when it is made.</param>
internal sealed record MakingForm(
    HttpContext Context,
    IAntiforgery Tokens,
    Func<string, IResult> Refuse,
    Func<MadeJob, string> Then
)
{
    /// <summary>Answers the form.</summary>
    /// <param name="make">Makes it, from the form and by whoever sent it.</param>
    public async Task<IResult> Answer(Func<IFormCollection, string, Outcome<MadeJob>> make)
    {
        if (await Forms.Read(Context, Tokens) is not { } form)
        {
            return Refuse(Forms.Stale);
        }

        var made = await Task.Run(() => make(form, Visitor.Of(Context).Name), Context.RequestAborted);
        return made.Ok ? Results.Redirect(Then(made.Value)) : Refuse(Say.Fault(made.Fault));
    }
}
