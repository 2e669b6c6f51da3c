/* Licences of what is bundled: notices.txt */
var bf=i=>{throw TypeError(i)};var wf=(i,t,e)=>t.has(i)||bf("Cannot "+e);var jc=(i,t,e)=>(wf(i,t,"read from private field"),e?e.call(i):t.get(i)),vt=(i,t,e)=>t.has(i)?bf("Cannot add the same private member more than once"):t instanceof WeakSet?t.add(i):t.set(i,e);var x=(i,t,e)=>(wf(i,t,"access private method"),e);var Io=class{constructor(t){this.desk=t,this.askedAt=-1/0}now(){clearTimeout(this.later),this.later=0,this.askedAt=performance.now();let{state:t,studies:e}=this.desk;for(let n of Object.values(e))t[n.which]&&n.show(t)}rest(){this.later&&this.now()}soon(){if(this.later)return;let t=this.desk.panes.software?250:120,e=this.askedAt+t-performance.now();e<=0?this.now():this.later=setTimeout(()=>this.now(),e)}};function Po(i,t){let e=Math.abs(i).toFixed(t),n=Number(e)===0;return i<0&&!n?"−"+e:e}var ay=1e4;function ei(i){let[t,e]=String(Number(Number(i).toFixed(6))).split("."),n=Math.abs(i)<ay?t:t.replace(/(?<=\d)(?=(\d{3})+$)/g," ");return(e===void 0?n:`${n}.${e}`).replace("-","−")}function We(i,t){return t?t==="°"?i+t:`${i} ${t}`:i}function Lo(i,t=""){let e=ly(i.trim(),t).replace(/[−–]/g,"-").replace(",",".").replace(/(?<=\d)\s(?=\d{3}(\D|$))/g,"");return/^[+-]?(\d+\.?\d*|\.\d+)$/.test(e)?Number(e):NaN}function No(i){return i.toFixed(2).replace(/(\.\d)0$/,"$1")}function ly(i,t){let n=(t==="°"?["°","deg"]:[t]).find(s=>s&&i.endsWith(s));return n?i.slice(0,-n.length).trim():i}function Tf(i){return i>0&&i<.005?"< 0.01":i.toFixed(2)}function _s(i,t,e){return Math.min(Math.max(i,t),e)}function Qc({least:i,most:t,unit:e}){return We(`${ei(i)} to ${ei(t)}`,e)}function Do(i){return`Accepted: ${Qc(i)}${i.optional?", or empty: not set":""}.`}function gi(i,t){return`${i} ${t}${i===1?"":"s"}`}function Ae(i){return i.replace(/(\d) (mm²|mm|µm|N)(?![\p{L}])/gu,"$1 $2")}var Af=100;function xs(i,t){return i.trial??t??[]}function Ef({case:i,changes:t},e,n){return Vn(e)===Vn(n??[])?{case:i,changes:t}:{case:i,changes:t,trial:e}}function Vn(i){return JSON.stringify(i.map(t=>Object.entries(t).sort(([e],[n])=>e<n?-1:1)))}function Cf(i){if(!Array.isArray(i))throw new Error("its changes of teeth are no list");if(i.length>Af)throw new Error(`it changes teeth more than ${Af} times`);let t=e=>typeof e=="object"&&e!==null&&typeof e.kind=="string"&&Number.isInteger(e.tooth)&&Object.keys(e).length<=10&&Object.entries(e).every(([n,s])=>n==="kind"||/^[a-z_]{1,20}$/.test(n)&&Number.isFinite(s));if(!i.every(t))throw new Error("one of its changes of teeth is none");return i.map(e=>({...e}))}function Rf(i,{kinds:t}){for(let e of i){let n=t.find(o=>o.kind===e.kind);if(!n)return`there is no change of a tooth called ${e.kind.slice(0,20)}`;let s=n.amounts.map(({name:o})=>o),r=Object.keys(e).find(o=>!["kind","tooth",...s].includes(o));if(r)return`${n.title}: takes no ${r.replaceAll("_"," ")}`}return""}function fr(i,{kinds:t}){let e=t.find(s=>s.kind===i.kind),n=(e?.amounts??[]).filter(({name:s})=>i[s]).map(({name:s,unit:r,said:o})=>{let a=We(ei(Math.abs(i[s])),r);return o[i[s]>0?0:1].replace("{}",a)});return[`${i.tooth} ${e?.done??i.kind}`,n.join(" and ")].filter(Boolean).join(" ")}function Oo(i,t){return i.map(e=>fr(e,t)).join(", ")}function If(i,t){let e=`change[${t}]`;if(!i?.keys?.includes(e))return"";let n=i.text.split(`
`).filter(s=>s.startsWith(e));return(n.length?n:[i.text]).map(s=>s.replace(e,"").replace(/^[.:\s]+/,"")).join(`
`)}function Pf({state:i,study:t,welcome:e,settings:n}){let{chosen:s,movement:r,start:o,travel_mm:a,opening_mm:l}=i,c=t.case?.title??i[s].case,h=t.case?.movements.find(S=>S.movement===r&&S.start===o)?.title??r,d=/, from /.test(h)?"":`, from ${o}`,u=Object.entries(i[s].changes),f=u.map(([S,g])=>n.told(S,g)),m=Oo(xs(i[s],t.case?.trial),e.trial);return[i.b?`State ${s.toUpperCase()}: ${c}`:c,`${h}${d}; travel ${a.toFixed(1)} mm; opened ${l.toFixed(1)} mm beyond closure`,u.length?`${gi(u.length,"setting")} changed: ${f.join("; ")}`:"Settings as in the case",...m?[`Trial set-up: ${m}`]:[],`Cuspway ${e.version}. ${e.cautions}`].map(Ae)}var cy="http://www.w3.org/2000/svg";function Lf(i,t,e){for(let[n,s]of Object.entries(t??{}))s==null||s===!1||(n.startsWith("on")?i.addEventListener(n.slice(2),s):n==="text"?i.textContent=s:i.setAttribute(n,s===!0?"":String(s)));for(let n of e.flat(1/0))n!=null&&n!==!1&&i.append(n);return i}function p(i,t,...e){return Lf(document.createElement(i),t,e)}function Rt(i,t,...e){return Lf(document.createElementNS(cy,i),t,e)}function It(i){let t=document.getElementById(i);if(!t)throw new Error(`the page has no #${i}`);return t}function Hn(...i){return i.join("-").replace(/[^A-Za-z0-9_]+/g,"-").replace(/-+$/,"")}function nt(i,t){for(let[e,n]of Object.entries(t))i[e]!==n&&(i[e]=n)}function ke(i,t){for(let[e,n]of Object.entries(t))i.getAttribute(e)!==String(n)&&i.setAttribute(e,n)}function st(i,t){nt(i,{hidden:!t})}function Nf(i){return"dirty"in i.dataset&&document.activeElement===i}var hy=1e6;function th(i,t){let e=URL.createObjectURL(i);pr(e,t),setTimeout(()=>URL.revokeObjectURL(e),1e4)}function pr(i,t){let e=p("a",{href:i,download:t});document.body.append(e),e.click(),e.remove()}function Df(i,t){th(new Blob([`${JSON.stringify(i,null,1)}
`],{type:"application/json"}),t)}function Of(){return new Promise((i,t)=>{let e=p("input",{type:"file",accept:".json,application/json",id:"open-state-file"});e.hidden=!0,document.body.append(e),e.addEventListener("cancel",()=>e.remove()),e.addEventListener("change",async()=>{let[n]=e.files;e.remove();try{if(n.size>hy)throw new Error("it is too large for a state");i(JSON.parse(await n.text()))}catch(s){t(s instanceof SyntaxError?new Error(uy(n.name)):s)}}),e.click()})}function uy(i){return/\.toml$/i.test(i)?`it is a case file: end the program and start it with “cuspway page ${i}” to open it`:"it is no state saved by this page"}async function Uf(i){try{return await navigator.clipboard.writeText(i),!0}catch{return!1}}var eh={"closing arc":"the arc on which a lower tooth moves while the jaw only turns about the line through both condyles","Christensen angle":"the angle by which the jaw has turned after moving forward: the condyles go down, so back teeth come farther apart than front teeth","existing guidance":"what guides the jaw when no replacement tooth is there: the natural teeth that are left, and the condyles",settled:"at least 95 % of samples of the uncertain settings agree that a finding holds, or that it does not",settling:"moving the cusps that hold the bite towards the opposing teeth until each rests on them","edge-to-edge":"the place of an excursion where the edges of the guiding teeth stand on one another; beyond it they cross over","near MI":"so short a way from maximal intercuspation that contacts there count as those of MI","nonworking side":"the side from which the jaw moves away","working side":"the side to which the jaw moves","replacement tooth":"an artificial tooth on a denture base, in place of one that is lost",MI:"maximal intercuspation: the teeth closed as fully as they fit",CR:"centric relation: the jaw as the condyles alone place it, whatever the teeth do"},Ff=["closing arc","Christensen angle","existing guidance","settling","edge-to-edge"],dy=new RegExp(`(${Ff.join("|")})`);function Cn(i){return i.split(dy).filter(Boolean).map(t=>Ff.includes(t)?p("dfn",{title:eh[t],text:t}):t)}var fy=[["Anywhere",[["Space","play or pause the movement (not in a field or on a button)"],["Ctrl+Z, Ctrl+Shift+Z","undo, redo"],["1 to 7","look from: front, right, left, upper occlusal, lower occlusal, into the mouth, behind"],["? ","this help"]]],["On the casts",[["Arrows","turn"],["Shift+arrows","move"],["+ and −","enlarge, make smaller"],["Click on a tooth","choose it under “Change a tooth”"],["Drag; right drag; wheel","turn; move; enlarge. Two fingers move and enlarge"]]],["In a field or on a chart",[["Up, down","one step more, less"],["Page up, page down","ten steps (chart: five)"],["Enter","take what was typed"],["Escape","put back the value that holds"],["Home, end","chart: start, end of the excursion"]]]];function kf(i,t,e){return p("section",{},p("h3",{text:i}),p("dl",{class:"facts keys-list"},t.map(([n,s])=>p("div",{},p("dt",{},e(n)),p("dd",{text:s})))))}function Uo(){let i=It("help-dialog");i.firstChild||(i.append(p("h2",{id:"help-title",tabindex:"-1",autofocus:!0,text:"Keys and words"}),...fy.map(([t,e])=>kf(t,e,n=>p("kbd",{text:n}))),kf("Words",Object.entries(eh),t=>t),p("button",{type:"button",id:"help-close",text:"Close",onclick:()=>i.close()})),i.addEventListener("click",t=>{t.target===i&&i.close()})),i.showModal()}var nh="#state=";function Fo(i){let t=new TextEncoder().encode(JSON.stringify(i)),e="";for(let n of t)e+=String.fromCharCode(n);return nh+btoa(e).replaceAll("+","-").replaceAll("/","_").replace(/=+$/,"")}function ih(i){if(!i.startsWith(nh))return null;let t=i.slice(nh.length);if(t.length>32768)throw new Error("it is too long");try{let e=t.replaceAll("-","+").replaceAll("_","/"),n=Uint8Array.from(atob(e),s=>s.charCodeAt(0));return JSON.parse(new TextDecoder("utf-8",{fatal:!0}).decode(n))}catch{throw new Error("it was cut short or altered on the way")}}var py=["front","right","left","behind","upper occlusal","lower occlusal","mouth"],my=["solid","ghosted","away"],gy=["pose","excursion","none"],_y=50,xy=40,Bf=200;function Vf(){return{upper:"solid",lower:"solid",numbers:!0,around:!0,forces:!1,before:!0,look:"front",linked:{}}}function Hf(i){return{a:{case:i.case,changes:{...i.changes}},b:null,chosen:"a",movement:i.movement,start:i.start,travel_mm:i.travel_mm,opening_mm:i.opening_mm,map:i.map,display:Vf()}}function gr(i,t){let{movement:e,start:n,travel_mm:s,opening_mm:r,map:o}=i;return{...i[t],movement:e,start:n,travel_mm:s,opening_mm:r,map:o}}function ts({case:i,changes:t,trial:e}){let n=Object.entries(t).sort(([s],[r])=>s<r?-1:1);return JSON.stringify(e?[i,n,e]:[i,n])}function Wf(i,t,e){let n={...i.changes,...t},s=Object.entries(n).filter(([r,o])=>o!==(e[r]??null));return{...i,changes:Object.fromEntries(s)}}function Xf(i,t,e,n){let s=new Set([...Object.keys(e),...Object.keys(n)]),r=(o,a,l)=>l in o.changes?o.changes[l]:a[l]??null;return[...s].map(o=>({path:o,one:r(i,e,o),other:r(t,n,o)})).filter(o=>o.one!==o.other)}function _r(i){let t={...gr(i,"a"),display:i.display};return i.b&&Object.assign(t,{other:i.b,chosen:i.chosen}),t}function sh(i){if(!mr(i))throw new Error("it holds no state of this page");return{a:zf(i),b:i.other===void 0||i.other===null?null:zf(i.other),chosen:i.other&&i.chosen==="b"?"b":"a",movement:$f(i,"movement",60),start:ko(i,"start",["MI","CR"]),travel_mm:Gf(i,"travel_mm",_y),opening_mm:Gf(i,"opening_mm",xy),map:ko(i,"map",gy),display:yy(i.display)}}function mr(i){return typeof i=="object"&&i!==null&&!Array.isArray(i)}function zf(i){if(!mr(i))throw new Error("its second state is none");let t=i.changes??{};if(!mr(t))throw new Error("its changes are no list of settings");let e=Object.entries(t);if(e.length>Bf)throw new Error(`it changes more than ${Bf} settings`);for(let[r,o]of e)if(!(o===null||typeof o=="boolean"||Number.isFinite(o)||typeof o=="string"&&o.length<=80)||r.length>120)throw new Error(`its setting ${r.slice(0,60)} is none`);let n=$f(i,"case",60);if(!/^[a-z0-9_]+$/.test(n))throw new Error("its case has an impossible name");let s=i.trial===void 0||i.trial===null?{}:{trial:Cf(i.trial)};return{case:n,changes:Object.fromEntries(e),...s}}function $f(i,t,e){let n=i[t];if(typeof n!="string"||n===""||n.length>e)throw new Error(`its ${t} is missing`);return n}function ko(i,t,e){if(!e.includes(i[t]))throw new Error(`its ${t} is none of ${e.join(", ")}`);return i[t]}function Gf(i,t,e){let n=i[t];if(!Number.isFinite(n)||n<0||n>e)throw new Error(`its ${t.replace("_mm","")} is not between 0 and ${e} mm`);return n}function yy(i){let t=Vf();if(i===void 0)return t;if(!mr(i))throw new Error("its display is none");for(let e of["upper","lower"])i[e]!==void 0&&(t[e]=ko(i,e,my));for(let e of["numbers","around","forces","before"])i[e]!==void 0&&(t[e]=i[e]===!0);if(i.look!==void 0&&(t.look=ko(i,"look",py)),mr(i.linked)){let e=Object.entries(i.linked).slice(0,20);t.linked=Object.fromEntries(e.map(([n,s])=>[n.slice(0,40),s===!0]))}return t}function rh(i,{cases:t,controls:e,trial:n}){let s=new Map(e.flatMap(({controls:r})=>r.flatMap(o=>Object.values(o.keys).map(a=>[a,o]))));for(let r of[i.a,i.b].filter(Boolean)){if(!t.some(({name:a})=>a===r.case)){let a=r.case.startsWith("given")||r.case.startsWith("own_");throw new Error(a?"it is of a case file or of own casts that this page was not given":`there is no case ${r.case} here`)}for(let[a,l]of Object.entries(r.changes)){let c=s.get(a);if(!c)throw new Error(`there is no setting ${a}`);let h=Bo(c,l);if(h)throw new Error(`${c.label}: ${h}`)}let o=r.trial?Rf(r.trial,n):"";if(o)throw new Error(o)}}function Bo(i,t){if(t===null)return i.optional?"":"a value is needed";if(i.type==="switch")return typeof t=="boolean"?"":"is neither on nor off";if(i.type==="choice")return i.choices.some(o=>o.value===t)?"":`is none of ${i.choices.map(({label:o})=>o).join(", ")}`;let{least:e,most:n}=i,s=Qc(i);return Number.isFinite(t)?i.whole&&!Number.isInteger(t)?`a whole number is needed, ${s}`:t>=e&&t<=n?"":`accepted: ${s}`:`a number is needed, ${s}`}var vy="What is shown can still be looked at, but nothing is computed. To go on elsewhere, save the state and open it in the new page; or put the part of this address from # on behind the new address.",zo={report:"report",case_file:"case file"},be,qf,Yf,oh,Jf,Zf,Kf,ah,lh,Go=class{constructor(t){vt(this,be);this.desk=t,this.under=new Map}calls(){return{"copy-link":()=>x(this,be,Jf).call(this),"save-state":()=>x(this,be,qf).call(this,()=>x(this,be,Yf).call(this)),"open-state":()=>x(this,be,Zf).call(this),"case-file":()=>x(this,be,ah).call(this,"case_file"),picture:()=>x(this,be,Kf).call(this),report:()=>x(this,be,ah).call(this,"report"),help:()=>Uo()}}tell(t,e="info"){clearTimeout(this.timer),this.desk.notices.tell("done",e,t),e==="info"&&(this.timer=setTimeout(()=>this.desk.notices.tell("done",e,""),6e3))}answered({kind:t,words:e,text:n,asked:s}){t==="fault"?this.desk.notices.tell(s,"fault",`No ${zo[s]} was made. ${x(this,be,lh).call(this,n)}`):this.desk.notices.tell(s,"info",`Making the ${zo[s]}: ${e}`)}fileCame({name:t,address:e,asked:n}){this.desk.notices.tell(n,"info",""),pr(e,t),this.tell(`Saved: ${t}`)}tellLinks(t){let e=t.find(({link:r})=>r==="apart"),n=e?.teeth?`${e.words} ${vy}`:e?.words??"",s=this.desk.state?{words:"Save state",call:this.calls()["save-state"]}:null;this.desk.notices.tell("apart","apart",n,{keeps:!0,act:s});for(let r of["a","b"]){let o=t.find(h=>h.which===r),a=t.length>1?`${r.toUpperCase()}: `:"",l=o?.pose?" The last picture stays.":"",c=o?.fault?`${a}${x(this,be,lh).call(this,o.fault.text)}${l}`:"";this.desk.notices.tell(`fault-${r}`,"fault",c,{keeps:!0})}}};be=new WeakSet,qf=function(t){this.desk.state&&t()},Yf=function(){let t=x(this,be,oh).call(this,"json");Df(_r(this.desk.state),t),this.tell(`Saved: ${t}`)},oh=function(t){let{state:e}=this.desk;return`${e[e.chosen].case}_${e.movement.replace(/[^a-z0-9]+/gi,"_")}.${t}`},Jf=async function(){if(!this.desk.state)return;let t=location.origin+location.pathname+location.search+Fo(_r(this.desk.state)),e=await Uf(t);this.tell(e?"Link copied. It works on this machine until the program is ended.":`The link: ${t}`)},Zf=async function(){if(this.desk.state)try{this.desk.take(await Of()),this.tell("State opened. Undo brings back the one before.")}catch(t){this.tell(`This file cannot be shown: ${t.message}. Nothing was changed.`,"fault")}},Kf=async function(){let t=this.desk.state&&this.desk.panes.of(this.desk.state.chosen);if(!t?.view?.stage){this.tell("There is no picture to save.","fault");return}th(await t.view.picture(Pf(this.desk)),x(this,be,oh).call(this,"png")),this.tell("Picture saved.")},ah=function(t){if(!this.desk.state)return;(this.desk.study?.ask(t,this.desk.state)??null)===null?this.tell(`The ${zo[t]} cannot be made while the connection is lost.`,"fault"):this.desk.notices.tell(t,"info",`Making the ${zo[t]}`)},lh=function(t){let e=this.desk.settings.inWords(t).split(`
`);return(e.length===2&&e[0].replace("right","left")===e[1]?[e[0].replace("right","right and left")]:e).map(My).join(`
`)};function My(i){let t=i.trim();return t.charAt(0).toUpperCase()+t.slice(1)+(/[.!?]$/.test(t)?"":".")}var Sy="Tries the settings within what they are known to, in the background, and tells in how many samples each finding holds. Takes a minute or more.",ys,jf,Qf,Vo=class{constructor(){vt(this,ys);this.button=p("button",{type:"button",id:"how-sure",title:Sy,text:"How sure?",onclick:()=>this.study?.askSure(this.state)}),this.stop=p("button",{type:"button",id:"stop-sure",text:"Stop",onclick:()=>x(this,ys,jf).call(this)}),this.bar=p("progress",{id:"sure-progress",max:"1","aria-label":"How far the study is"}),this.words=p("span",{class:"quiet",id:"sure-words",role:"status"}),this.running=p("div",{class:"sure-running"},this.bar,this.stop),this.about=p("div",{class:"sure-about",id:"sure-about"}),this.others=p("div",{class:"sure-others",id:"sure-others"}),this.head=p("div",{class:"sure"},this.button,this.running,this.words,this.about)}update(t,e){Object.assign(this,{study:t,state:e});let{sure:n}=t,s=n?.stands==="running",r=t.freshSure;return st(this.button,!s&&!r),nt(this.button,{disabled:!t.whole}),st(this.running,s),s&&n.share!==null?nt(this.bar,{value:n.share}):this.bar.removeAttribute("value"),nt(this.words,{textContent:by(n,r)}),r!==this.shown&&x(this,ys,Qf).call(this,r),r?.findings??null}};ys=new WeakSet,jf=function(){this.study.leaveSure(),st(this.button,!0),this.button.focus()},Qf=function(t){this.shown=t,st(this.about,!!t),st(this.others,!!t),this.about.replaceChildren(...t?[p("p",{class:"quiet",text:t.lead}),p("details",{},p("summary",{text:"What a share means"}),t.about.map(n=>p("p",{class:"quiet",text:n})))]:[]);let e=t?.others??[];this.others.replaceChildren(...e.length?[p("h4",{text:"Not as set, but in some samples"}),p("ul",{},e.map(n=>p("li",{},p("span",{text:`${n.title} `}),ch(n))))]:[])};function by(i,t){return t||!i?"":i.stands==="running"?i.words||"Getting ready":i.stands==="fault"?Ae(`Not studied: ${i.text}`):i.stands==="left"?"Stopped: the study was left off.":""}function ch(i){return p("span",{class:"share-line"},wy(i),p("span",{text:`holds in ${i.short}`}))}function wy({low:i,share:t,high:e}){let n=`M${i+2} 8H${e+2}M${i+2} 4.5v7M${e+2} 4.5v7`;return Rt("svg",{class:"share",viewBox:"0 0 104 16","aria-hidden":"true"},Rt("rect",{class:"whole",x:2,y:3,width:100,height:10}),Rt("rect",{class:"part",x:2,y:3,width:t,height:10}),Rt("path",{class:"halo",d:n}),Rt("path",{class:"interval",d:n}))}function tp(i){return[["how sure",`${i.text}: ${i.settled}`],...i.decides?[["what decides it",i.decides]]:[]].map(([e,n])=>p("div",{},p("dt",{text:e}),p("dd",{text:Ae(n)})))}var ep=["serious","attention","note"];function hh(i,t){return ep.map(e=>p("span",{class:`count ${e}`},p("span",{class:"sign","aria-hidden":"true",text:t?.[e]??""}),` ${e==="note"?gi(i?.note??0,"note"):`${i?.[e]??0} ${e}`}`))}var Wn,xr,np,ip,Ho=class{constructor(t,e){vt(this,Wn);this.pick=e,this.counts=p("span",{class:"counts",id:`${t}-counts`}),this.list=p("ul",{class:"findings",id:t}),this.more=p("button",{type:"button",class:"small",id:`${t}-more`,hidden:!0,onclick:()=>{this.all=!this.all,x(this,Wn,xr).call(this)}}),this.element=p("div",{},this.list,this.more),this.picked=null}show(t,e,n,s=null){if(t===this.header&&n===this.open&&s===this.sure)return;Object.assign(this,{header:t,signs:e,open:n,sure:s}),t?.findings.some(({id:o})=>o===this.picked)||(this.picked=null),this.counts.replaceChildren(...t?hh(t.counts,e):[],n?p("span",{class:"quiet",text:n}):""),x(this,Wn,xr).call(this)}forget(){this.picked!==null&&(this.picked=null,x(this,Wn,xr).call(this))}};Wn=new WeakSet,xr=function(){let t=this.header?.findings??[],e=ep.flatMap(a=>t.filter(l=>l.severity===a)),n=this.all?e:e.filter(a=>a.severity!=="note"||a.id===this.picked),s=e.length-e.filter(({severity:a})=>a!=="note").length;this.more.hidden=s===0,this.more.textContent=this.all?"Hide notes":`Show ${gi(s,"note")}`,this.more.setAttribute("aria-expanded",String(!!this.all));let r=e.length===0&&this.header&&!this.open?[p("li",{class:"quiet",text:"Nothing found. That says nothing about what was not looked at."})]:[],o=this.open?[p("li",{class:"quiet",text:`${this.open.charAt(0).toUpperCase()}${this.open.slice(1)}.`})]:[];this.list.replaceChildren(...r,...n.map(a=>x(this,Wn,np).call(this,a)),...o)},np=function(t){let e=t.id===this.picked,n=this.sure?.[t.id],s=t.text.startsWith(t.lead)?t.text.slice(t.lead.length).trim():t.text,r=t.text!==t.lead,o=p("button",{type:"button",class:"finding","aria-expanded":String(e),"aria-pressed":String(e),onclick:()=>x(this,Wn,ip).call(this,t)},p("span",{class:`sign ${t.severity}`,"aria-hidden":"true",text:t.sign}),p("span",{class:"finding-words"},p("span",{class:"severity",text:`${t.severity}: `}),t.lead,t.replacement?p("span",{class:"flag",text:" ◆ replacement tooth"}):null,t.determined===!1?p("span",{class:"quiet",text:" not determined by these records"}):null,n?ch(n):null)),a=e?p("div",{class:"finding-more"},r?p("p",{},Cn(s||t.text)):null,t.movement?null:p("p",{class:"quiet",text:"It belongs to no single excursion."}),p("dl",{class:"facts"},n?tp(n):null,t.details.map(([l,c])=>p("div",{},p("dt",{},Cn(l)),p("dd",{text:Ae(c)}))))):null;return p("li",{class:e?"picked":""},o,a)},ip=function(t){this.picked=this.picked===t.id?null:t.id,x(this,Wn,xr).call(this),this.list.querySelector(".picked button")?.focus(),this.pick(this.picked?t:null)};function sp({from_mm:i,to_mm:t}){if(i===null)return 0;let e=Math.round(5*(i+t))/10;return Number((e>=i&&e<=t?e:i).toFixed(3))}var Ty={teeth:"teeth",table:"the guide table",pin:"the pin",nothing:"nothing"},rp=["Upper","Lower","Side","Gap, µm","Area, mm²"],op={travel:"at a travel of",held:"jaw held by",first:"first contact",next:"next to touch",opening:"opening at closure",opened:"opened beyond it, lower incisal point"},Ay="Gap: shortest distance between both surfaces as they stand.",Ey="Closing: how far the jaw would still close, along the closing arc, until the next pair touches.",on,uh,ap,lp,cp,hp,up,Wo=class{constructor(){vt(this,on);this.facts=Object.fromEntries(Object.entries(op).map(([t,e])=>{let n=p("dd",{});return[t,{words:n,line:p("div",{},p("dt",{text:e}),n)}]})),this.list=p("dl",{class:"facts"}),this.rows=[],this.kept=null,this.body=p("tbody",{}),this.table=p("table",{class:"contacts"},p("caption",{class:"spoken",text:"Contacts of this pose"}),p("thead",{},p("tr",{},rp.map(t=>p("th",{scope:"col",text:t})))),this.body),this.none=p("p",{class:"quiet",id:"no-contact"}),this.kinds=p("p",{class:"quiet",id:"kinds-of-distance"}),this.element=p("div",{class:"pose-now"},p("div",{id:"pose-now"},this.list),p("div",{id:"contacts"},this.none,this.table,this.kinds))}moving(t){t!==(this.kept!==null)&&(this.kept=t?0:null,this.element.style.minHeight="",x(this,on,uh).call(this))}show(t){!t||t===this.pose||(this.pose=t,x(this,on,ap).call(this,Cy(t)),x(this,on,lp).call(this,t),x(this,on,uh).call(this))}};on=new WeakSet,uh=function(){if(this.kept===null)return;let t=this.element.offsetHeight;t<=this.kept||(this.kept=t,this.element.style.minHeight=`${t}px`)},ap=function(t){let e=Object.keys(op).filter(s=>t[s]);for(let s of e)nt(this.facts[s].words,{textContent:t[s]});let n=e.join();n!==this.told&&(this.told=n,this.list.replaceChildren(...e.map(s=>this.facts[s].line)))},lp=function(t){let{contacts:e,next:n}=t,s=e.length>0;st(this.table,s),st(this.none,!s),nt(this.none,{textContent:s?"":Ry(t)}),e.forEach((r,o)=>x(this,on,cp).call(this,o,r,Iy(r,t)));for(let r of this.rows.splice(e.length))r.line.remove();x(this,on,up).call(this,[s?Ay:"",n?Ey:""].filter(Boolean).join(" "))},cp=function(t,e,n){var o;(o=this.rows)[t]??(o[t]=x(this,on,hp).call(this));let{line:s,cells:r}=this.rows[t];nt(s,{className:n?"is-first":""}),Py(e).forEach((a,l)=>nt(r[l],{textContent:a}))},hp=function(){let t=rp.map(()=>p("td",{})),e=p("tr",{},t);return this.body.append(e),{line:e,cells:t}},up=function(t){st(this.kinds,t!==""),t!==this.explained&&(this.explained=t,this.kinds.replaceChildren(...Cn(t)))};function Cy(i){let{first:t,next:e}=i;return{travel:We(No(i.travel_mm),"mm"),held:i.opened_mm>0?"nothing: opened":Ty[i.guide]??i.guide,first:t&&`${t.upper} on ${t.lower}`,next:e&&`${e.upper} on ${e.lower}, after ${dh(e.gap_mm)} of closing`,opening:We(Po(i.opening_deg,2),"°"),opened:i.opened_mm>0?We(i.opened_mm.toFixed(1),"mm"):null}}function Ry(i){return i.opened_mm>0?"No contact: the jaw is opened beyond closure.":i.guide==="table"?"No tooth touches: the guide table holds the jaw.":"No tooth touches in this pose."}function Iy({upper:i,lower:t},{first:e}){return i===e?.upper&&t===e?.lower}function Py({upper:i,lower:t,side:e,gap_mm:n,area_mm2:s}){return[String(i),String(t),e||"–",String(Math.round(n*1e3)),Tf(s)]}function dh(i){let t=Math.round(i*1e3);return Math.abs(t)<100?We(String(t),"µm"):We(i.toFixed(2),"mm")}function es([i,t],[e,n]){let s=t-i;return r=>s===0?(e+n)/2:e+(r-i)/s*(n-e)}function yr(i,t,e){let n=t-i;if(!(n>0)||e<2)return[i];let s=n/(e-1),r=10**Math.floor(Math.log10(s)),o=[1,2,5,10].map(l=>l*r).find(l=>l>=s-1e-12),a=[];for(let l=Math.ceil(i/o-1e-9);l*o<=t+o*1e-9;l+=1)a.push(Number((l*o).toPrecision(12)));return a}function dp(i){let t=i.map(e=>String(Number(e.toPrecision(6))).split(".")[1]??"");return Math.min(Math.max(0,...t.map(e=>e.length)),3)}function fp(i,{wide:t,tall:e,margin:n,least:s}){let r=f=>{let m=i.map(b=>b[f]),[S,g]=[Math.min(0,...m),Math.max(0,...m)],_=Math.max(s-(g-S),.12*(g-S))/2;return[S-_,g+_]},[o,a]=[r(0),r(1)],l=Math.min((t-2*n)/(o[1]-o[0]),(e-2*n)/(a[1]-a[0])),c=([f,m])=>(f+m)/2,h={x:(t/2-n)/l,y:(e/2-n)/l},d=(f,m)=>[c(f)-m,c(f)+m],u={x:d(o,h.x),y:d(a,h.y)};return{x:es(u.x,[n,t-n]),y:es(u.y,[e-n,n]),across:u.x,upward:u.y,pxPerMm:l}}var Ly={undo:"M7 4 3 8l4 4M3.5 8H11a4.5 4.5 0 0 1 0 9H8",redo:"M13 4l4 4-4 4M16.5 8H9a4.5 4.5 0 0 0 0 9h3",reset:"M4.5 7A6.5 6.5 0 1 1 3.5 11M4.5 2.5V7H9",link:"M8.5 11.5a3.5 3.5 0 0 0 5 0l2.5-2.5a3.54 3.54 0 0 0-5-5L10 5M11.5 8.5a3.5 3.5 0 0 0-5 0L4 11a3.54 3.54 0 0 0 5 5l1-1",save:"M10 3v9M6 8.5l4 4 4-4M3.5 13v3.5h13V13",open:"M10 12.5v-9M6 7l4-4 4 4M3.5 13v3.5h13V13",casefile:"M5 2.5h7l3.5 3.5v11.5H5zM12 2.5V6h3.5M7.5 10h5.5M7.5 13h5.5",picture:"M3 4h14v12H3zM3 13.5l4-4 3.5 3.5 2.5-2 4 3.5M12.5 7.5h.1",report:"M4 2.5h12v15H4zM7 6.5h6M7 9.5h6M7 14v-1.5M10 14v-2.5M13 14v-1",lessons:"M10 5.5C8 4 5.500 3.500 3 4v11.500c2.500-.5 5 0 7 1.500 2-1.500 4.500-2 7-1.500V4c-2.500-.5-5 0-7 1.500zM10 5.500V17",compare:"M3 4h6v12H3zM11 4h6v12h-6z",help:"M7.5 7.5a2.5 2.5 0 1 1 3.5 2.3c-.7.3-1 .9-1 1.7v.5M10 14.5v.2",play:"M6 4l10 6-10 6z",pause:"M6.5 4v12M13.5 4v12",close:"M5 5l10 10M15 5L5 15",both:"M3 10h14M6.5 6.5 3 10l3.5 3.5M13.5 6.5 17 10l-3.5 3.5"};function hn(i){return Rt("svg",{viewBox:"0 0 20 20",width:18,height:18,class:`icon icon-${i}`,"aria-hidden":"true",focusable:"false"},Rt("path",{d:Ly[i]}))}var Ny={ArrowUp:1,ArrowDown:-1,PageUp:10,PageDown:-10},vr=class{constructor(t,e){this.input=t,this.element=p("p",{class:"wrong",id:e}),st(this.element,!1)}say(t,e=!0){nt(this.element,{textContent:t}),st(this.element,t!==""),ke(this.input,{"aria-invalid":t!==""&&e}),t&&document.activeElement===this.input&&this.element.scrollIntoView({block:"nearest"})}get words(){return this.element.textContent}},an,Xo,mp,gp,fh,_p,vs=class{constructor({id:t,name:e,note:n,accepts:s,text:r,calls:o}){vt(this,an);Object.assign(this,{accepts:s,text:r,calls:o,value:null,faulty:!1}),this.range=p("span",{class:"spoken",id:`${t}-range`}),this.input=p("input",{type:"text",inputmode:"decimal",id:t,"aria-label":e,autocomplete:"off",spellcheck:"false","aria-describedby":`${n} ${this.range.id}`,placeholder:s().optional?"not set":null,onchange:()=>x(this,an,mp).call(this),onblur:()=>x(this,an,gp).call(this),onkeydown:a=>x(this,an,_p).call(this,a),onkeyup:a=>a.key.startsWith("Arrow")&&o.end()}),this.note=new vr(this.input,n),this.tellRange()}tellRange(){let t=Do(this.accepts());nt(this.range,{textContent:t}),nt(this.input,{title:t})}quiet(){this.refused=null,this.note.say("")}update(t,e=""){let n=t!==this.value;e&&e!==this.note.words?this.note.say(e):!e&&(this.faulty||n)&&this.quiet(),this.faulty=e!=="",this.value=t,!(!n&&typeof this.refused=="string")&&!Nf(this.input)&&nt(this.input,{value:this.text(t)})}};an=new WeakSet,Xo=function(t){return Lo(t,this.accepts().unit)},mp=function(){delete this.input.dataset.dirty;let t=this.input.value.trim(),e=t===""?null:x(this,an,Xo).call(this,t),n=Bo(this.accepts(),e);this.refused=n?t:null,this.note.say(n?`${pp(t)} is not taken; ${n}.`:""),!n&&(this.calls.end(),this.calls.take(e))},gp=function(){if(this.refused===null||this.refused===void 0)return;let t=Bo(this.accepts(),this.refused===""?null:x(this,an,Xo).call(this,this.refused));x(this,an,fh).call(this);let e=this.text(this.value)||"not set";this.note.say(`${pp(this.refused)} was not taken; ${t}. It stays ${e}.`,!1),this.refused=null;let n=({target:s})=>s!==this.input&&!this.faulty&&this.quiet();document.addEventListener("change",n,{once:!0})},fh=function(){delete this.input.dataset.dirty,this.input.value=this.text(this.value)},_p=function(t){if(t.key==="Escape"){this.refused=null,x(this,an,fh).call(this),this.faulty||this.note.say("");return}let e=Ny[t.key];if(!e)return;t.preventDefault();let{least:n,most:s,step:r}=this.accepts(),o=x(this,an,Xo).call(this,this.input.value),a=Number.isNaN(o)?this.value??n:o,l=_s(a+e*r,n,s);this.quiet(),this.input.value=this.text(l),this.calls.step(l)};function pp(i){return i===""?"An empty field":`“${i.slice(0,20)}”`}var Mr=class{constructor(t,e,n,s,r){this.most=1,this.slider=p("input",{type:"range",id:`${t}-slider`,min:0,max:1,step:n,"aria-label":`${e}, slider`,oninput:()=>{this.field.quiet(),s(Number(this.slider.value),t)},onchange:r}),this.field=new vs({id:t,name:null,note:`${t}-wrong`,accepts:()=>({type:"number",least:0,most:Number(this.most.toFixed(2)),step:n,unit:"mm"}),text:o=>No(o??0),calls:{take:o=>s(o,null),step:o=>s(Number(o.toFixed(3)),t),end:r}}),this.input=this.field.input,this.slide=p("div",{class:"slide"},this.slider),this.element=p("div",{class:`mm mm-${t}`},p("label",{for:t,text:e}),this.slide,p("span",{class:"number"},this.input,p("span",{class:"unit",text:"mm"})),this.field.range,this.field.note.element)}limit(t){this.most=t,nt(this.slider,{max:String(t)}),this.field.tellRange()}off(t){nt(this.slider,{disabled:t}),nt(this.input,{disabled:t})}update(t){nt(this.slider,{value:String(t)}),ke(this.slider,{"aria-valuetext":`${t.toFixed(1)} mm`}),this.field.update(t)}};function ni(i,t,e,n){let s=e.map(([o])=>p("input",{type:"radio",name:i,id:Hn(i,o),value:o,onchange:()=>n(o)}));return{element:p("div",{class:"segmented",role:"radiogroup","aria-label":t,id:i},p("span",{class:"segmented-label",text:t,"aria-hidden":"true"}),p("span",{class:"segments"},e.map(([o,a],l)=>p("label",{for:Hn(i,o)},s[l],p("span",{text:a}))))),update(o,a={}){for(let l of s)nt(l,{checked:l.value===o,disabled:a[l.value]===!0})}}}var Dy=[.5,1,2,4],Oy=40,Uy=6,xp=8,yp=118,Fy=22,xi="raised bite",_i,vp,Mp,ph,$o=class{constructor(t){vt(this,_i);this.calls=t,this.movement=p("select",{id:"movement",onchange:()=>t.movement(this.movement.value)}),this.starts=ni("start-from","From",[["MI","MI"],["CR","CR"]],t.start),this.startWords=p("span",{class:"quiet start-words",id:"start-words"}),this.starts.element.append(this.startWords),this.starts.element.setAttribute("aria-describedby",this.startWords.id),this.playWords=p("span",{text:"Play"}),this.play=p("button",{type:"button",id:"play",class:"play","aria-pressed":"false",title:"Play the movement (space)",onclick:()=>t.play()},hn("play"),this.playWords),this.speed=p("select",{id:"speed"},Dy.map(e=>p("option",{value:e,text:`${e} mm/s`,selected:e===2}))),this.travel=new Mr("travel","Travel",.1,t.travel,t.end),this.opening=new Mr("opening","Opening",.5,t.opening,t.end),this.opening.limit(Oy),this.marks=Rt("svg",{class:"marks","aria-hidden":"true"}),this.travel.slide.append(this.marks),x(this,_i,vp).call(this),new ResizeObserver(()=>x(this,_i,ph).call(this)).observe(this.travel.slide)}get mmPerSecond(){return Number(this.speed.value)}setMovements(t,e){this.movements=t,this.notOffered=e;let n=new Map;for(let{movement:r,start:o,title:a}of t)(!n.has(r)||o==="MI")&&n.set(r,a.replace(/, from .*/,""));let s=[...n].map(([r,o])=>p("option",{value:r,text:o}));this.movement.replaceChildren(...s)}update(t,e,n,s){this.travel.off(s),nt(this.play,{disabled:s}),nt(this.movement,{value:t.movement});let r=(this.movements??[]).filter(({movement:h})=>h===t.movement),o=h=>r.some(d=>d.start===h);this.starts.update(t.start,{MI:!o("MI"),CR:!o("CR")}),x(this,_i,Mp).call(this,t.movement,o("MI"),o("CR")),e&&(this.row=e);let a=e??(this.row?.movement===t.movement?this.row:null);this.most=Math.max(a?a.travel_mm.at(-1):Uy,t.travel_mm),this.travel.limit(this.most),this.travel.update(t.travel_mm),this.opening.update(t.opening_mm);let l=a?.edge_to_edge_mm??null,c=JSON.stringify([this.most,l,n]);c!==this.drawn&&(this.drawn=c,this.told={edge:l,readings_mm:n},x(this,_i,ph).call(this))}playing(t){t!==this.plays&&(this.plays=t,ke(this.play,{"aria-pressed":t}),this.playWords.textContent=t?"Pause":"Play",this.play.replaceChildren(hn(t?"pause":"play"),this.playWords))}};_i=new WeakSet,vp=function(){let t=(e,n)=>p("div",{class:"chosen"},p("label",{for:e.id,text:n}),e);It("movement-bar").append(p("div",{class:"bar-row"},t(this.movement,"Movement"),this.starts.element,this.play,t(this.speed,"Speed")),p("div",{class:"bar-row sliders"},this.travel.element,this.opening.element))},Mp=function(t,e,n){let s=(this.movements??[]).some(({start:l,movement:c})=>l==="CR"&&c!==xi),r="";!e&&this.movements?r="CR only":!n&&this.movements&&(r=s?"MI only":"CR = MI");let o=this.notOffered?.[t]??{},a=o.MI??o.CR??"";nt(this.startWords,{textContent:r,title:a}),nt(this.starts.element,{title:a})},ph=function(){let t=this.travel.slide.clientWidth;if(!t||!this.told)return;let e=es([0,this.most],[xp,t-xp]),{edge:n,readings_mm:s}=this.told;this.marks.setAttribute("viewBox",`0 0 ${t} 20`);let r=(m,S,g)=>Rt("line",{x1:m,x2:m,y1:0,y2:S,class:g}),o=(m,S,g,_="middle")=>Rt("text",{x:m,y:17,class:g,"text-anchor":_},S),a=s.filter(m=>m<=this.most),l=n!==null&&n<=this.most,c=Math.max(e(n??0)+4,e(Math.max(0,...a))+10),h=c+yp<=t,d=m=>!l||h||e(m)+8<t-yp,u=ky(a.filter(d),m=>e(m)),f=a.flatMap(m=>[r(e(m),5,"reading"),u.has(m)?o(e(m),String(m),"reading"):""]);l&&f.push(r(e(n),8,"edge"),h?o(c,`edge-to-edge ${n.toFixed(1)} mm`,"edge","start"):o(t,`edge-to-edge ${n.toFixed(1)} mm`,"edge","end")),this.marks.replaceChildren(...f)};function ky(i,t){let e=new Set,n=-1/0;for(let s of i)t(s)-n<Fy||(e.add(s),n=t(s));return e}var Xn=(i,t)=>i[0]*t[0]+i[1]*t[1]+i[2]*t[2],mh=(i,t)=>[i[1]*t[2]-i[2]*t[1],i[2]*t[0]-i[0]*t[2],i[0]*t[1]-i[1]*t[0]],Xe=(i,t,e=1)=>[i[0]+e*t[0],i[1]+e*t[1],i[2]+e*t[2]];function Sr(i){let t=Math.hypot(i[0],i[1],i[2])||1;return[i[0]/t,i[1]/t,i[2]/t]}function gh(i,t,e){let n=Math.cos(e),s=Math.sin(e),r=(1-n)*Xn(t,i),o=mh(t,i);return[0,1,2].map(a=>n*i[a]+s*o[a]+r*t[a])}var br=Float32Array.from([1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1]),ii=(i,t)=>[i[0]*t[0]+i[1]*t[1]+i[2]*t[2]+i[3],i[4]*t[0]+i[5]*t[1]+i[6]*t[2]+i[7],i[8]*t[0]+i[9]*t[1]+i[10]*t[2]+i[11]];function Di(i,t){let e=t[0]-i[3],n=t[1]-i[7],s=t[2]-i[11];return[i[0]*e+i[4]*n+i[8]*s,i[1]*e+i[5]*n+i[9]*s,i[2]*e+i[6]*n+i[10]*s]}var Sp=(i,t)=>[i[0]*t[0]+i[4]*t[1]+i[8]*t[2],i[1]*t[0]+i[5]*t[1]+i[9]*t[2],i[2]*t[0]+i[6]*t[1]+i[10]*t[2]];var _h=.3,xh=1,By=10,zy=["along","across"];function bp(i){return(i.forces?.teeth??[]).flatMap(e=>Gy(i,e)).sort((e,n)=>n.n-e.n)}function Gy(i,{tooth:t,place:e,along:n,across:s}){let r=t<30?"upper":"lower",o=e??Vy(i,r,t);return!o||i.display[r]==="away"?[]:zy.flatMap((a,l)=>{let c=[n,s][l],h=Math.hypot(...c);if(h<xh)return[];let[d,u]=[o,Xe(o,c,_h)].map(f=>i.eye.project(f).slice(0,2));return[{from:d,to:u,kind:a,abutment:e===null,n:h,text:`${t}: ${yh(h)} N`}]})}function Vy(i,t,e){let n=i.sight.crown(t,e);return n?t==="lower"?ii(i.move,n.middle):n.middle:null}function yh(i){return i.toFixed(Math.abs(i)<By?1:0)}function wr(i,t){let e=Math.min(Math.max(t,0),1)*(i.length-1),n=Math.min(Math.floor(e),i.length-2),s=[1,3,5].map(o=>{let[a,l]=[n,n+1].map(h=>Number.parseInt(i[h].slice(o,o+2),16)),c=a+(e-n)*(l-a);return Math.round(c+.1*(255-c))}),r=t<=.7?1:Math.max(0,(1-t)/(1-.7));return[...s,Math.round(255*r)]}function wp(i){let t=new Uint8Array(1024);for(let e=0;e<256;e+=1)t.set(wr(i,e/255),4*e);return t}function Tp(i){for(let t of[4,5,3,2])for(let e=0;e<=3;e+=1){let n=i/t;if(Math.abs(n-Number(n.toFixed(e)))<1e-9)return Array.from({length:t+1},(s,r)=>({value:r*n,text:r===0?"0":(r*n).toFixed(e)}))}return[{value:0,text:"0"},{value:i,text:String(i)}]}var Rn="#1c1f24",Oi="#5b626c",In="#ffffff";var Hy='system-ui, "Segoe UI", Roboto, "Liberation Sans", "DejaVu Sans", sans-serif',Ap={size:12,bold:!1,colour:Rn,align:"left",rim:3.5},Ep=({size:i,bold:t})=>`${t?"600 ":""}${i}px ${Hy}`;function Ee(i,t,e,n,s){let{size:r,bold:o,colour:a,align:l,rim:c}={...Ap,...s};i.font=Ep({size:r,bold:o}),i.textAlign=l,i.textBaseline="middle",i.lineJoin="round",i.strokeStyle=In,i.lineWidth=c,c>0&&i.strokeText(t,e,n),i.fillStyle=a,i.fillText(t,e,n)}function Pn(i,t,e){return i.font=Ep({...Ap,...e}),i.measureText(t).width}function Cp(i,t,e,n){let s=[];for(let r of t.split(" ")){let o=s.length?`${s.at(-1)} ${r}`:r;s.length&&Pn(i,o,n)<=e?s[s.length-1]=o:s.push(r)}return s}var Ms=10,Pp=330,Wy={tall:28,low:22},[Rp,Xy]=[13,9],vh={tall:54,low:24,bare:34},Tr={width:184,height:10,beyond:26},qo={width:92,height:9,beyond:16},Ip=[10,5,2,1,.5],$y="#d5d9df";function Ar(i,t){let e=i<Pp?"low":"tall";return{top:Wy[e],bottom:e==="low"?vh.low:t?vh.tall:vh.bare}}function Yo(i,t,{bar:e}){let{top:n,bottom:s}=Ar(t,!!e);return[{x:0,y:0,w:i,h:n},{x:0,y:t-s,w:i,h:s}]}function Mh(i,t,e,n){let[s,r]=Yo(t,e,n),o=e<Pp;i.fillStyle=In;for(let{x:a,y:l,w:c,h}of[s,r])i.fillRect(a,l,c,h);i.fillStyle=$y,i.fillRect(0,s.h-1,t,1),i.fillRect(0,r.y,t,1),qy(i,t,s.h,n),Jy(i,t,r,n.pxPerMm,o),n.bar&&(o?Ky:Zy)(i,r,n.bar)}function qy(i,t,e,{title:n,hint:s,left:r,right:o}){let a=e/2,l={colour:Oi},c=Math.max(Pn(i,r,l),Pn(i,o,l))+Ms+12,h=s?`   ${s}`:"",d=t-2*c,u=Yy(i,n,d),[f,m]=[Pn(i,n,u),Pn(i,h,l)],S=f+m<=d,g=(t-f-(S?m:0))/2;Ee(i,n,g,a,u),S&&Ee(i,h,g+f,a,l),Ee(i,r,Ms,a,l),Ee(i,o,t-Ms,a,{...l,align:"right"})}function Yy(i,t,e){let n={size:Rp,bold:!0},s=Pn(i,t,n);return s<=e?n:{...n,size:Math.max(Xy,Math.floor(Rp*e/s))}}function Jy(i,t,e,n,s){let r=Ip.find(c=>c*n<=.3*t)??Ip.at(-1),o=t-Ms,a=o-r*n,l=e.y+(s?e.h/2+1:e.h-12);i.strokeStyle=Rn,i.lineWidth=2,i.beginPath(),i.moveTo(a,l-5),i.lineTo(a,l+4),i.moveTo(a,l),i.lineTo(o,l),i.moveTo(o,l-5),i.lineTo(o,l+4),i.stroke(),s?Ee(i,`${r} mm`,a-6,l,{size:11,align:"right"}):Ee(i,`${r} mm`,(a+o)/2,l-12,{align:"center"})}function Lp(i,t,e,{width:n,height:s,beyond:r},{tooth:o,scale:a}){for(let l=0;l<n;l+=1){let[c,h,d,u]=wr(a,(l+.5)/n);i.fillStyle=o,i.fillRect(t+l,e,1,s),i.globalAlpha=u/255,i.fillStyle=`rgb(${c} ${h} ${d})`,i.fillRect(t+l,e,1,s),i.globalAlpha=1}i.fillStyle=o,i.fillRect(t+n,e,r,s),i.strokeStyle=Oi,i.lineWidth=1,i.strokeRect(t-.5,e-.5,n+r+1,s+1)}function Zy(i,t,e){let s=t.y+22;Lp(i,14,s,Tr,e);let r=s+Tr.height+12;for(let{value:o,text:a}of Tp(e.limitMm)){let l=14+o/e.limitMm*Tr.width;i.fillStyle=Oi,i.fillRect(l-.5,s+Tr.height,1,3),Ee(i,a,l,r,{size:11,align:"center"})}Ee(i,"more",14+Tr.width+20,r,{size:11}),Ee(i,`${e.title}, mm`,13,s-10)}function Ky(i,t,e){let n=t.y+t.h/2+1,s={size:11},r=`${e.short}, mm: 0`;Ee(i,r,Ms,n,s);let o=Ms+Pn(i,r,s)+6;Lp(i,o,n-qo.height/2,qo,e),Ee(i,`${e.limitMm} and more`,o+qo.width+qo.beyond+6,n,s)}var jy="#1c1f24",Np=1.2,Jo=16,Sh="∆",Dp=.5,Qy={colour:jy,shape:"o"};function Op(i,t){let{eye:e,display:n}=i,s=tv(i);return{dots:nv(i,t),marks:s,ring:sv(i),pins:ev(i),forces:bp(i),axis:cv(i),labels:n.numbers?rv(i):[],numberGround:i.roles["replacement tooth"],frame:{title:hv(e,n),hint:s.some(({hidden:r})=>r)?"dotted: contact behind what is seen":"",...i.teeth.oriented===!1?{left:"",right:""}:uv(e),pxPerMm:e.pxPerMm,bar:dv(i)}}}function tv(i){let{pose:t}=i;if(!t||i.mapOf()==="excursion")return[];let e=t.travel_mm===0&&t.start==="MI",{colour:n,shape:s}=i.styles[e?"MI":t.movement]??Qy,r=t.first?.place,o=(l,c)=>l&&c&&Math.hypot(l[0]-c[0],l[1]-c[1],l[2]-c[2])<.3,a=t.contacts.map(({place:l,side:c})=>({place:l,filled:e||c!=="nonworking",first:o(l,r)}));return r&&!a.some(l=>l.first)&&a.push({place:r,filled:!0,first:!0}),a.map(({place:l,filled:c,first:h})=>{let d=i.placeNow(l),[u,f]=i.eye.project(d),m=i.sight.hides(d,i.eye.towards);return{x:u,y:f,shape:s,colour:n,filled:c,first:h,hidden:m}})}function ev({pins:i,eye:t,sight:e}){return i.map(({place:n,...s})=>{let[r,o]=t.project(n);return{...s,x:r,y:o,hidden:e.hides(n,t.towards)}})}function nv(i,t){let e=i.display.upper==="away",n=[];return i.trail.forEach((s,r)=>{let o=e&&s.lowerPlaces?s.lowerPlaces:s.places,a=iv(i,r,o,e,t);for(let l=0;l<o.length/3;l+=1){let c=Up(i,s,o,l,e),[h,d]=i.eye.project(c);n.push({x:h,y:d,colour:s.colour,filled:s.filled,hidden:a[l]===1})}}),n}function Up(i,t,e,n,s){let r=[e[3*n],e[3*n+1],e[3*n+2]];return s&&t.lowerPlaces?ii(i.move,r):r}function iv(i,t,e,n,s){let r=i.trailHidden[t],o=`${i.eye.directions} ${i.displays} ${n?0:i.moves}`,a=e.length/3;if(r&&r.flags.length===a&&(r.key===o||!s))return r.flags;let l=new Uint8Array(a);if(s){for(let c=0;c<a;c+=1){let h=Up(i,i.trail[t],e,c,n);l[c]=i.sight.hides(h,i.eye.towards)?1:0}i.trailHidden[t]={key:o,flags:l}}return l}function sv(i){if(!i.ringed?.place)return null;let[t,e]=i.eye.project(i.ringed.place);return{x:t,y:e}}function rv(i){let{eye:t,sight:e,display:n,ringed:s}=i,r=[];for(let{arch:o,tooth:a,text:l,point:c,strong:h,on_crown:d}of i.teeth.labels){let u=e.crown(o,a);if(n[o]==="away"||!u)continue;let f=C=>o==="lower"?ii(i.move,C):C,m=s?.upper===a||s?.lower===a||i.tooth===a,S=i.teeth.changed?.includes(a)??!1;if(!lv(i,f(u.middle),u.radius,o,a))continue;let g=C=>!e.isBehindOthers(f(C),t.towards,o,a),_=d?[c,u.middle].find(g):ov(c,o,u,t);if(!_)continue;let[b,I,A]=t.project(f(_));r.push({...av(i,b,I,f(u.middle)),far:A,text:S?`${l}${Sh}`:l,strong:h,picked:m,changed:S})}return r}function ov(i,t,e,n){let s=t==="upper"?e.high[2]+Np:e.low[2]-Np,r=(1-n.towards[2]**2)**2;return[i[0],i[1],i[2]+r*(s-i[2])]}function av(i,t,e,n){let{eye:s}=i;if(!s.holds(n))return{x:t,y:e};let{top:r,bottom:o}=Ar(s.height,i.mapOf()!=="none"),a=(l,c,h)=>Math.min(Math.max(l,c),h);return{x:a(t,Jo,s.width-Jo),y:a(e,r+Jo/2,s.height-o-Jo/2)}}function lv({eye:i,sight:t},e,n,s,r){return[0,-.5,.5].some(o=>!t.isBehindOthers(Xe(e,i.right,o*n),i.towards,s,r))}function cv({pose:i,eye:t}){let e=[i?.condyles_mm?.right,i?.condyles_mm?.left];return e.every(n=>n&&t.holds(n))?e.map(n=>t.project(n).slice(0,2)):null}function hv(i,t){let e=i.title,n=[e[0].toUpperCase()+e.slice(1)];for(let s of["upper","lower"])t[s]==="away"&&n.push(`${s} away`),t[s]==="ghosted"&&n.push(`${s} ghosted, crowns only`);return n.join(" · ")}function uv({right:i}){if(Math.abs(i[1])>Dp&&Math.abs(i[1])>=Math.abs(i[0])){let[t,e]=["patient's right","patient's left"];return i[1]>0?{left:t,right:e}:{left:e,right:t}}return Math.abs(i[0])>Dp?i[0]>0?{left:"back",right:"front"}:{left:"front",right:"back"}:{left:"",right:""}}function dv(i){let t=i.mapOf();return t==="none"?null:{limitMm:i.limitMm,title:t==="excursion"?"least gap on the way":"gap to the opposing arch",short:t==="excursion"?"least gap":"gap",tooth:i.roles["upper tooth"],scale:i.gapScale}}function bh(i,t,e){let n=new Float32Array(i.length);for(let s=0;s<t.length;s+=1){let r=e.subarray(16*t[s],16*t[s]+16);n.set(Di(r,i.subarray(3*s,3*s+3)),3*s)}return n}var fv=[["upper tooth","natural tooth"],["replacement tooth","replacement tooth (its number is framed)"],["gum","gum"],["denture base","denture base"],["stone","stone of the cast"]],pv={MI:"in MI",protrusion:"protrusion","right lateral":"right lateral","left lateral":"left lateral","right between":"between, right","left between":"between, left",retrusion:"retrusion"},Fp={s:"M3 3h8v8H3z","^":"M7 2.5l5 9H2z",o:"M7 2.5a4.5 4.5 0 1 1 0 9 4.5 4.5 0 0 1 0-9z",D:"M7 2l5 5-5 5-5-5z",v:"M2 2.5h10l-5 9z",P:"M5 2h4v3h3v4H9v3H5V9H2V5h3z",x:"M3 3l8 8M11 3l-8 8"};function kp(i){let{roles:t,styles:e,severities:n,gap_scale:s,map_limit_mm:r}=i,o=fv.filter(([c])=>t[c]).map(([c,h])=>yi(mv(t[c]),h)),a=Object.entries(pv).filter(([c])=>e[c]).map(([c,h])=>yi(Th(e[c].shape,e[c].colour,!0),`contact${c==="MI"?"":","} ${h}`)),l=Object.entries(n??{}).map(([c,h])=>yi(p("span",{class:`sign ${c}`,text:h}),c));return p("div",{class:"legend"},wh("Surfaces",[...o,yi(p("span",{class:"sign",text:Sh}),"behind a number: changed on trial; its outline as it was is drawn over it")]),wh("Contacts",[...a,yi(Th("s",Ss,!1),"hollow: on the nonworking side"),yi(Th("s",Ss,!1,"2 1.6"),"dotted: behind what is seen"),yi(gv(),"four strokes: first contact, which holds the jaw"),yi(_v(),"ring: the finding that is picked"),yi(xv(),"small dots: contacts of the whole excursion, pale where hidden")]),s?p("div",{},p("h4",{text:"Gap to the opposing arch"}),yv(s,t["upper tooth"]),p("p",{class:"quiet ends"},p("span",{text:"0 mm"}),p("span",{text:`${r??1} mm and more`}))):null,wh("Findings",l))}function wh(i,t){return p("div",{},p("h4",{text:i}),p("ul",{},t))}function yi(i,t){return p("li",{},i,p("span",{text:t}))}function mv(i){return Er(Rt("rect",{x:.5,y:.5,width:13,height:13,rx:2,fill:i,stroke:"#5b626c"}))}var Ss="#1c1f24";function Er(...i){return Rt("svg",{viewBox:"0 0 14 14",width:14,height:14,"aria-hidden":"true"},i)}function gv(){return Er(Rt("path",{d:"M7 0v3.5M7 10.5V14M0 7h3.5M10.5 7H14",fill:"none",stroke:Ss,"stroke-width":1.8}))}function _v(){return Er(Rt("circle",{cx:7,cy:7,r:5.5,fill:"none",stroke:Ss,"stroke-width":2}))}function xv(){return Er(Rt("circle",{cx:4,cy:7,r:1.8,fill:Ss}),Rt("circle",{cx:10,cy:7,r:1.8,fill:Ss,opacity:.45}))}function Th(i,t,e,n=null){let s=!e||i==="x";return Er(Rt("path",{d:Fp[i]??Fp.o,fill:s?"none":t,stroke:s?t:"#1c1f24","stroke-width":s?1.8:.8,"stroke-dasharray":n}))}function yv(i,t){let n=2.0833333333333335,s=Array.from({length:48},(r,o)=>{let[a,l,c,h]=wr(i,(o+.5)/48);return Rt("rect",{x:o*n,y:0,width:n+.2,height:8,fill:`rgb(${a} ${l} ${c})`,"fill-opacity":h/255})});return Rt("svg",{class:"gap-bar",viewBox:"0 0 100 8",preserveAspectRatio:"none",role:"img","aria-label":"dark: near; light: far"},Rt("rect",{x:0,y:0,width:100,height:8,fill:t??"#fff"}),s)}function Ah(i,t){let{freshLoads:e}=i;if(!e||t.opening_mm>0)return null;let n=e.header.excursions.find(({movement:o,start:a})=>o===t.movement&&a===t.start);if(!n||n.travel_mm.length===0)return null;let s=n.travel_mm.map(o=>Math.abs(o-t.travel_mm)),r=s.indexOf(Math.min(...s));return s[r]<=.0505?{excursion:n,i:r}:null}function Zo(i,t){let e=Ah(i,t);if(!e)return null;let{excursion:n,i:s}=e,{buffers:r,header:o}=i.freshLoads,a=(c,h)=>d=>Array.from(r[c].subarray(3*(s*h+d),3*(s*h+d)+3)),l=n.frames.flatMap(c=>{let h={t:c.teeth.length,a:c.abutments.length},d=a(c.place_mm,h.t),[u,f]=[c.teeth_along_n,c.teeth_across_n].map(g=>a(g,h.t)),[m,S]=[c.abutments_along_n,c.abutments_across_n].map(g=>a(g,h.a));return[...c.teeth.map((g,_)=>({tooth:g,place:d(_),along:u(_),across:f(_)})),...c.abutments.map((g,_)=>({tooth:g,place:null,along:m(_),across:S(_)}))]});return{key:`${o.number} ${n.movement} ${n.start} ${s}`,teeth:l}}var vv=[[0,0],[0,-.6],[0,.6],[-.6,0],[.6,0],[-.7,-.7],[.7,-.7],[-.7,.7],[.7,.7],[0,-1.15],[0,1.15],[-1.15,0],[1.15,0]],Mv=(i,t)=>i.x<t.x+t.w&&t.x<i.x+i.w&&i.y<t.y+t.h&&t.y<i.y+i.h;function Ko(i,t,e){let n=[...t],s=i.map(()=>null),r=i.map((o,a)=>a).sort((o,a)=>i[a].weight-i[o].weight||o-a);for(let o of r){let{x:a,y:l,w:c,h}=i[o];for(let[d,u]of vv){let f={x:a+d*c-c/2,y:l+u*h-h/2,w:c,h};if(f.x>=0&&f.y>=0&&f.x+c<=e.width&&f.y+h<=e.height&&!n.some(S=>Mv(f,S))){s[o]=f,n.push(f);break}}}return s}var bs={along:{colour:"#1c1f24",dash:[]},across:{colour:"#9c1458",dash:[5,3]}},Sv=9,Cr=3.4,Rr=3,Eh={h:15,beyond:11};function zp(i,t,e,n){for(let o of[...e].reverse())Tv(i,o);let s=e.map(o=>({...wv(o),w:Pn(i,o.text,{bold:!0})+6,h:Eh.h,weight:o.n})),r=Ko(s,[...n,...e.flatMap(bv)],t);return r.forEach((o,a)=>{if(!o)return;let{kind:l,text:c}=e[a];Ee(i,c,o.x+o.w/2,o.y+o.h/2,{bold:!0,align:"center",colour:bs[l].colour})}),r.filter(Boolean)}function bv({from:i,to:t}){let e=Math.max(1,Math.ceil(Math.hypot(t[0]-i[0],t[1]-i[1])/(2*Rr)));return Array.from({length:e+1},(n,s)=>{let[r,o]=[0,1].map(a=>i[a]+s/e*(t[a]-i[a]));return{x:r-Rr,y:o-Rr,w:2*Rr,h:2*Rr}})}function wv({from:i,to:t}){let[e,n]=[t[0]-i[0],t[1]-i[1]],s=Math.hypot(e,n)||1;return{x:t[0]+(Eh.beyond+20*Math.abs(e/s))*(e/s),y:t[1]+Eh.beyond*(n/s)}}function Tv(i,{from:t,to:e,kind:n,abutment:s}){let{colour:r,dash:o}=bs[n],[a,l]=[e[0]-t[0],e[1]-t[1]],c=Math.hypot(a,l),h=Math.min(Sv,c);if(i.lineCap="butt",i.lineJoin="round",c>0){let[d,u]=[a/c,l/c],f=[e[0]-h*d,e[1]-h*u];for(let[m,S,g]of[[In,5.6,[]],[r,2.6,o]])i.setLineDash(g),i.beginPath(),i.moveTo(...t),i.lineTo(...f),i.strokeStyle=m,i.lineWidth=S,i.stroke();i.setLineDash([]),i.beginPath(),i.moveTo(...e),i.lineTo(f[0]-.5*h*u,f[1]+.5*h*d),i.lineTo(f[0]+.5*h*u,f[1]-.5*h*d),i.closePath(),Bp(i,r)}i.beginPath(),s?i.rect(t[0]-Cr,t[1]-Cr,2*Cr,2*Cr):i.arc(t[0],t[1],Cr,0,2*Math.PI),Bp(i,s?In:Rn,s?Rn:In)}function Bp(i,t,e=In){i.strokeStyle=e,i.lineWidth=2,i.stroke(),i.fillStyle=t,i.fill()}var Av=["Tooth","Along, N","Across, N"],Ev=.05,pn,Vp,Ch,Hp,Wp,Xp,jo=class{constructor(t){vt(this,pn);this.put=t,this.picked=null,this.input=p("input",{type:"checkbox",id:"forces-shown",onchange:()=>x(this,pn,Vp).call(this,{forces:this.input.checked})}),this.list=p("div",{id:"loads"}),this.about=p("div",{class:"quiet",id:"loads-about"}),this.nowTitle=p("h4",{text:"In this pose"}),this.nowWords=p("p",{class:"quiet",id:"load-now-words"}),this.nowTable=p("div",{id:"load-now"}),this.now=p("div",{},this.nowTitle,this.nowWords,this.nowTable),this.element=p("div",{class:"loads"},p("p",{},"Largest force across the long axes, per 100 N of closing force. A row moves the jaw there."),this.list,this.now,p("label",{class:"toggle",for:"forces-shown"},this.input,p("span",{text:"arrows on the casts"})),Lv(),this.about)}update(t,e){if(this.state=e,!t.results?.header.loads_follow||t.isOfOther(t.results))return!1;nt(this.input,{checked:e.display.forces});let n=t.freshLoads,s=n?.header.whole?"":Pv(t);return(n!==this.loads||s!==this.words)&&(Object.assign(this,{loads:n,words:s}),x(this,pn,Ch).call(this)),x(this,pn,Xp).call(this,t,e),!0}};pn=new WeakSet,Vp=function(t){this.put({display:{...this.state.display,...t}})},Ch=function(){let{header:t}=this.loads??{},e=t?.excursions??[],n=e[0]?.frames.map(({framework:r})=>r)??[],s=Math.max(1,...e.flatMap(({frames:r})=>r.map(({largest:o})=>o?.across_n??0)));this.list.replaceChildren(...n.flatMap((r,o)=>[n.length>1?p("h4",{text:Gp(r)}):"",p("ul",{class:"guides"},e.map(a=>x(this,pn,Hp).call(this,a,a.frames[o],s)))]),this.words?p("p",{class:"quiet",text:this.words}):""),this.about.replaceChildren(...(t?.about??[]).map(r=>p("p",{},Cn(r))))},Hp=function(t,e,n){let s=t.gives_way.map(c=>p("p",{class:"gives-way"},p("span",{class:"sign","aria-hidden":"true",text:"▲"}),Gp(c))),{largest:r}=e;if(!r)return p("li",{},p("p",{class:"no-load"},p("span",{class:"guide-title",text:t.title}),p("span",{text:e.none})),s);let o=`${t.movement} ${t.start} ${e.framework}`,a=o===this.picked,l=p("span",{class:"load-bar","aria-hidden":"true"});return l.style.width=`${100*r.across_n/n}%`,p("li",{class:a?"picked":""},p("button",{type:"button",class:"load","aria-expanded":String(a),"aria-pressed":String(a),onclick:()=>x(this,pn,Wp).call(this,o,t,r)},p("span",{class:"guide-title",text:t.title}),p("span",{class:"guide-words"},Ae(r.words),p("span",{class:"load-at",text:Ae(r.where)}))),l,s,a?Iv(r):null)},Wp=function(t,{movement:e,start:n},{at_mm:s}){this.picked=this.picked===t?null:t,x(this,pn,Ch).call(this);let{display:r}=this.state;this.picked&&this.put({movement:e,start:n,travel_mm:Number(s.toFixed(3)),opening_mm:0,display:{...r,forces:!0}}),this.list.querySelector('.load[aria-pressed="true"]')?.focus()},Xp=function(t,e){let n=t.freshLoads;if(st(this.now,n!==null),!n)return;let s=Ah(t,e),r=Zo(t,e),o=s?s.excursion.escape[s.i]:"";nt(this.nowWords,{textContent:Cv(n,s,o,e)});let a=o?"":r?.key??"";a!==this.nowTold&&(this.nowTold=a,this.nowTable.replaceChildren(a?Rv(r.teeth):""))};function Cv({header:i},t,e,n){return e?`Nothing balances the closing force here: ${e} gives way.`:t?`Computed at ${t.excursion.travel_mm[t.i].toFixed(1)} mm of travel. □ abutment or root: what denture, bridge or splint presses on it with.`:!i.excursions.some(({movement:r,start:o})=>r===n.movement&&o===n.start)&&!i.whole?"Still being computed.":"Not computed here: only excursions from MI, as far as edge-to-edge and where teeth hold the jaw."}function Rv(i){let e=i.map(({tooth:n,place:s,along:r,across:o})=>({name:s?String(n):`${n} □`,n:[r,o].map(a=>Math.hypot(...a))})).filter(({n})=>Math.max(...n)>=Ev);return e.length===0?p("p",{class:"quiet",text:"Teeth of dentures, bridges and splints carry nothing."}):$p("Forces in this pose",Av,e.map(({name:n,n:s})=>[n,...s.map(yh)]))}function Iv({details:i,tables:t}){return p("div",{class:"finding-more"},p("dl",{class:"facts"},i.map(([e,n])=>p("div",{},p("dt",{},Cn(e)),p("dd",{text:Ae(n)})))),t.map(({title:e,columns:n,rows:s,note:r})=>[p("h4",{text:e}),$p(e,n,s),r?p("p",{class:"quiet",text:r}):null]))}function $p(i,t,e){return p("table",{class:"forces"},p("caption",{class:"spoken",text:i}),p("thead",{},p("tr",{},t.map(n=>p("th",{scope:"col",text:n})))),p("tbody",{},e.map(([n,...s])=>p("tr",{},p("th",{scope:"row",text:n}),s.map(r=>p("td",{text:Ae(r)}))))))}function Pv(i){return i.fault?"Not computed.":i.link==="apart"?"Not computed: no connection.":i.loads&&i.fresh?"Others still being computed.":"Still being computed."}function Gp(i){return i.charAt(0).toUpperCase()+i.slice(1)}function Lv(){let i=(t,e)=>p("span",{class:"key"},Rt("svg",{viewBox:"0 0 34 10",width:34,height:10,"aria-hidden":"true"},Rt("line",{x1:1,y1:5,x2:26,y2:5,stroke:bs[t].colour,"stroke-width":2.6,"stroke-dasharray":bs[t].dash.join(" ")||null}),Rt("path",{d:"M34 5L25 0.5V9.5Z",fill:bs[t].colour})),e);return p("p",{class:"quiet keys"},i("along","along the tooth’s axis"),i("across","across it"),p("span",{text:"● from the contact"}),p("span",{text:"□ on an abutment"}),p("span",{text:`${10*_h} mm long for 10 N; none below ${xh} N`}))}function qp(i){let t=({touch:n})=>Math.max(0,...n.map(([,s])=>s));return i.filter(({touch:n,near:s,first:r})=>n.length+s.length+r.length>0).map(n=>({...n,reach:t(n)})).sort((n,s)=>s.reach-n.reach||n.upper-s.upper||n.lower-s.lower)}var Ir=22,Rh=104,Pr=12,ns=6,Qo=36,Nv=3,Dv=.1,Ov={working:"working",nonworking:"nonworking","":""},ue,Yp,Jp,Ih,Ph,Zp,Lh,Kp,jp,Qp,tm,ws=class{constructor(t,e,n){vt(this,ue);this.travel=e,this.end=n,this.drawing=Rt("svg",{id:t,class:"touch-chart",tabindex:0,role:"slider","aria-label":"Travel along the excursion","aria-orientation":"horizontal","aria-valuemin":0}),this.drawing.addEventListener("keydown",s=>x(this,ue,Yp).call(this,s)),this.drawing.addEventListener("keyup",()=>this.end()),this.drawing.addEventListener("pointerdown",s=>x(this,ue,Jp).call(this,s)),this.drawing.addEventListener("pointermove",s=>x(this,ue,Ih).call(this,s)),this.drawing.addEventListener("pointerup",()=>x(this,ue,Ph).call(this)),this.drawing.addEventListener("pointercancel",()=>x(this,ue,Ph).call(this)),this.now=p("div",{class:"now moving","aria-hidden":"true"}),this.id=t,this.element=p("div",{class:"chart"},this.drawing,this.now),new ResizeObserver(()=>x(this,ue,Lh).call(this)).observe(this.element)}show(t,e){t!==this.row&&(this.row=t,this.style=e,x(this,ue,Lh).call(this))}at_mm(t){this.at=t,this.x&&(this.now.style.transform=`translate(${this.x(_s(t,0,this.most))}px, ${ns}px)`,ke(this.drawing,{"aria-valuenow":t.toFixed(2),"aria-valuetext":`${t.toFixed(1)} mm${x(this,ue,Zp).call(this,t)}`}))}};ue=new WeakSet,Yp=function(t){let e={ArrowRight:1,ArrowUp:1,ArrowLeft:-1,ArrowDown:-1,PageUp:5,PageDown:-5},s={Home:0,End:this.most}[t.key];t.key in e&&(s=this.at+e[t.key]*Dv),s!==void 0&&(t.preventDefault(),this.at=Number(_s(s,0,this.most).toFixed(3)),this.travel(this.at,this.id))},Jp=function(t){t.button===0&&(this.drawing.setPointerCapture(t.pointerId),this.dragging=!0,x(this,ue,Ih).call(this,t))},Ih=function(t){if(!this.dragging)return;let e=this.drawing.getBoundingClientRect(),n=es([Rh,this.wide-Pr],[0,this.most]);this.travel(Number(_s(n(t.clientX-e.left),0,this.most).toFixed(2)),this.id)},Ph=function(){this.dragging&&(this.dragging=!1,this.end())},Zp=function(t){let e=(this.rows??[]).filter(({touch:n})=>n.some(([s,r])=>t>=s&&t<=r));return e.length===0?"":`: ${e.map(({upper:n,lower:s})=>`${n} on ${s}`).join(", ")}`},Lh=function(){let t=this.element.clientWidth;if(st(this.now,!!this.row),!this.row||!t){this.drawing.setAttribute("height",0),this.drawing.replaceChildren();return}this.wide=t,this.rows=qp(this.row.pairs),this.most=this.row.travel_mm.at(-1),this.tall=ns+this.rows.length*Ir+Qo,this.x=es([0,this.most],[Rh,t-Pr]),this.now.style.height=`${this.tall-Qo+4-ns}px`,this.drawing.setAttribute("viewBox",`0 0 ${t} ${this.tall}`),this.drawing.setAttribute("height",this.tall),this.drawing.setAttribute("aria-valuemax",this.most.toFixed(2));let e=this.style?.colour??"#1c1f24";this.drawing.replaceChildren(x(this,ue,Kp).call(this,e),...x(this,ue,jp).call(this),...this.rows.flatMap((n,s)=>x(this,ue,Qp).call(this,n,s,e)),...x(this,ue,tm).call(this)),this.at_mm(this.at??0)},Kp=function(t){return Rt("defs",{},Rt("pattern",{id:`${this.id}-hatch`,width:5,height:5,patternUnits:"userSpaceOnUse",patternTransform:"rotate(45)"},Rt("rect",{width:5,height:5,fill:"#fff"}),Rt("rect",{width:2,height:5,fill:t})))},jp=function(){let t=this.row.edge_to_edge_mm;if(t===null||t>=this.most)return[];let e=this.x(t),n=this.tall-Qo;return[Rt("rect",{class:"beyond",x:e,y:ns,width:this.wide-Pr-e,height:n-ns}),Rt("line",{class:"edge",x1:e,x2:e,y1:ns,y2:n})]},Qp=function(t,e,n){let s=ns+e*Ir,r=(l,c,h,d)=>l.map(([u,f])=>Rt("rect",{class:h,x:this.x(u),y:s+(Ir-c)/2,height:c,fill:d,width:Math.max(this.x(Math.min(f,this.most))-this.x(u),Nv)})),o=`${t.upper} / ${t.lower}`,a=[`${t.upper} on ${t.lower}`,Ov[t.side],t.replacement?"replacement tooth":""];return[Rt("g",{},Rt("title",{},a.filter(Boolean).join(", ")),Rt("line",{class:"row-line",x1:0,x2:this.wide,y1:s+Ir,y2:s+Ir}),Rt("text",{class:t.replacement?"pair strong":"pair",x:0,y:s+15},o),t.replacement?Rt("text",{class:"flag",x:50,y:s+15},"◆ repl."):"",r(t.near,8,"near",`url(#${this.id}-hatch)`),r(t.touch,12,"touch",n),r(t.first,3,"first","#000"))]},tm=function(){let t=this.tall-Qo,e=yr(0,this.most,8).flatMap(n=>[Rt("line",{class:"axis",x1:this.x(n),x2:this.x(n),y1:t,y2:t+4}),Rt("text",{class:"axis",x:this.x(n),y:t+16,"text-anchor":"middle"},String(n))]);return[Rt("line",{class:"axis",x1:Rh,x2:this.wide-Pr,y1:t,y2:t}),...e,Rt("text",{class:"axis",x:this.wide-Pr,y:this.tall-5,"text-anchor":"end"},"travel of the lower incisal point, mm")]};var Ts=34,Uv=2,Nh="#1c1f24",em="#7a828d",nm="2 3",im=[{id:"gothic",title:"Gothic arch: lower incisal point, from above",of:"incisal_mm",wide:!0,plane:([i,t])=>[t,i],across:"patient’s right ← mm → left",upward:"forward, mm"},{id:"condyle-right",title:"Right condyle, from the right",of:"condyle_right_mm",condyle:"right",plane:([i,,t])=>[i,t],across:"forward, mm →",upward:"up, mm"},{id:"condyle-left",title:"Left condyle, from the left",of:"condyle_left_mm",condyle:"left",plane:([i,,t])=>[-i,t],across:"← forward, mm",upward:"up, mm",turned:!0},{id:"condyle-right-above",title:"Right condyle, from above",of:"condyle_right_mm",condyle:"right",plane:([i,t])=>[t,i],across:"right ← mm → left",upward:"forward, mm"},{id:"condyle-left-above",title:"Left condyle, from above",of:"condyle_left_mm",condyle:"left",plane:([i,t])=>[t,i],across:"right ← mm → left",upward:"forward, mm"}],Le,Dh,sm,Oh,Uh,rm,om,am,ta=class{constructor(t){vt(this,Le);this.charts=im.map(e=>{let n=Rt("svg",{id:`${t}${e.id}`,role:"img","aria-label":e.title}),s=p("div",{class:"now-point moving",hidden:!0,"aria-hidden":"true"}),r=p("figure",{class:e.wide?"wide":""},p("figcaption",{text:e.title}),p("div",{class:"chart"},n,s));return{chart:e,drawing:n,figure:r,now:s}}),this.keys=p("ul",{class:"quiet keys",id:`${t}keys`}),this.element=p("div",{class:"tracks"},this.keys,this.charts.map(({figure:e})=>e)),new ResizeObserver(()=>x(this,Le,Uh).call(this)).observe(this.element)}show(t,e,n,s){let r=t?`${t.header.number} ${t.header.kind} ${n.movement} ${n.start}`:"";r!==this.key&&(Object.assign(this,{key:r,results:t,styles:e?.styles??{},state:n,axis:s}),x(this,Le,Uh).call(this))}at(t){this.pose=t;for(let e of this.charts)x(this,Le,Dh).call(this,e)}};Le=new WeakSet,Dh=function({chart:t,now:e,scales:n,origin:s}){let r=t.condyle?this.pose?.condyles_mm?.[t.condyle]:this.pose?.incisal_mm;if(st(e,!!(n&&r)),!n||!r)return;let[o,a]=t.plane(r.map((l,c)=>l-s[c]));e.style.transform=`translate(${n.x(o)}px, ${n.y(a)}px)`},sm=function(t){if(t.condyle)return this.axis?.[t.condyle]??[0,t.condyle==="right"?-52:52,0];let e=this.results.header.movements.find(({start:n})=>n==="MI");return e?[...this.results.buffers[e[t.of]].subarray(0,3)]:[0,0,0]},Oh=function(t,e){let{header:n,buffers:s}=this.results,r=(l,c)=>{let h=s[l[t.of]]??new Float32Array(0),d=[];for(let m=0;m+2<h.length;m+=3)d.push(t.plane([0,1,2].map(S=>h[m+S]-e[S])));let u=!c&&l.movement===this.state.movement&&l.start===this.state.start,f=this.styles[l.movement]??(/45/.test(l.movement)?this.styles[l.movement.includes("-")?"right between":"left between"]:null);return{points:d,chosen:u,border:c,style:f,title:l.title}},o=(l,c)=>l.map(h=>r(h,c)),a=n.movements.filter(({start:l})=>l===this.state.start);return[...o(n.borders,!0),...o(a,!1)].filter(({points:l})=>l.length>1).sort((l,c)=>Number(l.chosen)-Number(c.chosen))},Uh=function(){if(!this.results)return;let t=this.charts.map(({figure:e})=>e.clientWidth);x(this,Le,rm).call(this),this.charts.forEach((e,n)=>{let s=t[n];s&&x(this,Le,om).call(this,e,s,e.chart.wide?Math.round(s*.62):Math.round(s*.95))})},rm=function(){let t=(a,l,c)=>Rt("svg",{viewBox:"0 0 26 8",width:26,height:8,"aria-hidden":"true"},Rt("line",{x1:1,x2:25,y1:4,y2:4,stroke:a,"stroke-dasharray":l,"stroke-width":c})),e=Rt("svg",{class:"now-ring",viewBox:"0 0 12 12",width:12,height:12,"aria-hidden":"true"},Rt("circle",{cx:6,cy:6,r:4.5})),n=(a,l)=>p("li",{class:"key"},a,l),s=x(this,Le,Oh).call(this,im[0],[0,0,0]),r=s.filter(({border:a})=>!a),o=JSON.stringify(s.map(({points:a,...l})=>l));o!==this.keysTold&&(this.keysTold=o,this.keys.replaceChildren(...r.map(({style:a,chosen:l,title:c})=>n(t(a?.colour??Nh,(a?.dash??[]).join(" "),l?3:1.6),c)),n(t(Nh,null,3),"thick: the movement shown"),s.length>r.length?n(t(em,nm,1.2),"border, without teeth"):"",n(e,"this pose")))},om=function(t,e,n){let{chart:s,drawing:r}=t;t.origin=x(this,Le,sm).call(this,s);let o=x(this,Le,Oh).call(this,s,t.origin),a=JSON.stringify([e,o]);if(a===t.told)return;t.told=a;let l=o.flatMap(({points:u})=>u);t.scales=fp(l,{wide:e,tall:n,margin:Ts,least:Uv});let{x:c,y:h}=t.scales;r.setAttribute("viewBox",`0 0 ${e} ${n}`);let d=o.map(({points:u,chosen:f,border:m,style:S,title:g})=>Rt("polyline",{points:u.map(([_,b])=>`${c(_).toFixed(1)},${h(b).toFixed(1)}`).join(" "),class:m?"border-track":f?"track chosen":"track",stroke:m?em:S?.colour??Nh,"stroke-dasharray":m?nm:(S?.dash??[]).join(" ")},Rt("title",{},m?`${g}, border, without teeth`:g)));r.replaceChildren(...x(this,Le,am).call(this,t,e,n),...d),x(this,Le,Dh).call(this,t)},am=function({chart:t,scales:e},n,s){let{x:r,y:o,across:a,upward:l}=e,c=Ts,h=s-Ts,d=yr(a[0],a[1],Math.max(3,Math.floor(n/46))),u=yr(l[0],l[1],Math.max(3,Math.floor(s/40))),f=(m,S,g)=>Po(g?-S:S,dp(m));return[...d.flatMap(m=>[Rt("line",{class:m===0?"zero":"grid",x1:r(m),x2:r(m),y1:Ts,y2:h}),Rt("text",{class:"axis",x:r(m),y:h+14,"text-anchor":"middle"},f(d,m,t.turned))]),...u.flatMap(m=>[Rt("line",{class:m===0?"zero":"grid",x1:c,x2:n-Ts,y1:o(m),y2:o(m)}),Rt("text",{class:"axis",x:c-5,y:o(m)+4,"text-anchor":"end"},f(u,m,!1))]),Rt("text",{class:"axis",x:n/2,y:s-4,"text-anchor":"middle"},t.across),Rt("text",{class:"axis",x:2,y:Ts-12},t.upward)]};var Fv=5,Ln,lm,cm,hm,um,dm,ea=class{constructor(t){vt(this,Ln);this.calls=t,this.now=new Wo,this.guides=p("ul",{class:"guides",id:"guides"}),this.chart=new ws("touch-chart",t.travel,t.end),this.chartTitle=p("span",{text:"Teeth in contact"}),this.chartText=p("p",{class:"quiet",id:"guide-text"}),this.chartKey=kv(),this.findings=new Ho("findings",t.pick),this.sure=new Vo,this.replacement=p("ul",{class:"replacement",id:"replacement"}),this.loads=new jo(t.put),this.tracks=new ta("track-"),this.facts=p("dl",{class:"facts",id:"facts"}),this.slide=p("p",{id:"slide"}),this.legend=p("div",{id:"legend"}),this.sections=[$e("now","In this pose",this.now.element),$e("guides","What guides",this.guides),$e("touch",this.chartTitle,this.chart.element,this.chartKey,this.chartText),$e("findings","Findings",this.sure.head,this.findings.element,this.sure.others),$e("replacement","Replacement teeth",this.replacement),$e("loads","Load on replacement teeth",this.loads.element),$e("tracks","Tracks",this.tracks.element),$e("facts","Facts",this.slide,this.facts),$e("legend","Legend",this.legend)],this.head=p("button",{type:"button",class:"results-head",id:"to-findings",title:"Go to the findings",onclick:()=>x(this,Ln,lm).call(this)},this.findings.counts,p("span",{class:"spoken",text:": go to the findings"}),p("span",{"aria-hidden":"true",text:"↓"})),this.element=p("div",{id:"results-of-one",class:"waiting"},this.head,this.sections)}moving(t){this.now.moving(t)}update(t,e,n){this.now.show(t.pose?.header);let{results:s}=t,r=t.excursion(e.movement,e.start),o=n.styles[e.movement];this.chart.show(r,o),this.chartKey.style.setProperty("--movement",o?.colour??"#1c1f24"),this.chart.at_mm(e.travel_mm),nt(this.chartTitle,{textContent:r?`Teeth in contact, ${Bv(r.title)}`:"Teeth in contact"}),x(this,Ln,cm).call(this,r?r.text:zv(t,e));let a=s===null||t.isOfOther(s);this.element.classList.toggle("waiting",a),st(this.head,!a),this.element.classList.toggle("old",!a&&!t.fresh),ke(this.element,{"aria-busy":t.computing});let l=`${t.fresh} ${t.computing}`,c=this.sure.update(t,e);s&&this.findings.show(s.header,n.severities,As(t),c),s&&(s!==this.results||l!==this.standing||e.movement!==this.movement||e.start!==this.start)&&(x(this,Ln,hm).call(this,s.header,e,s.whole?"":As(t)),x(this,Ln,um).call(this,s),x(this,Ln,dm).call(this,s,t)),st(this.sections[Fv],this.loads.update(t,e)),this.tracks.show(s,n,e,t.teeth?.header.axis),t.pose&&this.tracks.at(t.pose.header),this.legend.firstChild||this.legend.append(kp(n)),Object.assign(this,{results:s,standing:l,movement:e.movement,start:e.start})}};Ln=new WeakSet,lm=function(){let t=It("section-findings");t.open=!0,t.querySelector("summary").focus({preventScroll:!0}),t.scrollIntoView({block:"start"})},cm=function(t){t!==this.chartTold&&(this.chartTold=t,this.chartText.replaceChildren(...Cn(t)))},hm=function(t,e,n){this.guides.replaceChildren(...t.guidance.map(s=>{let r=s.movement===e.movement&&s.start===e.start;return p("li",{},p("button",{type:"button","aria-pressed":String(r),onclick:()=>this.calls.movement(s.movement,s.start)},p("span",{class:"guide-title",text:s.title}),p("span",{class:"guide-words",text:s.words})))}),...n?[p("li",{class:"quiet",text:`others ${n}`})]:[])},um=function({header:t,whole:e}){let n=t.replacement,s=[p("li",{class:"quiet",text:"This case has no replacement teeth."})];this.replacement.replaceChildren(...n.length?n.map(r=>Gv(r,e)):s)},dm=function({header:t,whole:e},n){this.slide.replaceChildren(...Cn(t.slide??"")),st(this.slide,!!t.slide);let s=t.facts.map(([o,a])=>p("div",{},p("dt",{},Cn(o)),p("dd",{text:Ae(a)}))),r=e?[]:[p("div",{class:"quiet"},p("dt",{text:As(n)}),p("dd"))];this.facts.replaceChildren(...s,...r)};function $e(i,t,...e){let n=typeof t=="string"?document.createTextNode(t):t;return p("details",{class:"section",id:`section-${i}`,open:!0},p("summary",{},p("h3",{},n)),e)}function kv(){let i=(t,e)=>p("span",{class:"key"},p("span",{class:`swatch ${t}`,"aria-hidden":"true"}),e);return p("p",{class:"quiet keys"},i("touch","touches"),i("near","near"),i("first","holds the jaw"),i("now","this pose"),i("beyond","beyond edge-to-edge"))}function Bv(i){return i.charAt(0).toLowerCase()+i.slice(1)}function As(i){return i.whole?"":i.computing?"still being computed":i.results?.whole?"of the settings before":"not computed"}function zv(i,{movement:t}){return t===xi?"There is no travel along which teeth could be followed.":i.computing?"Still being computed.":"Not computed."}function Gv({tooth:i,name:t,words:e,touches:n},s=!0){return p("li",{class:n?"touches":""},p("span",{class:"flag","aria-hidden":"true",text:n?"◆":"◇"}),p("span",{},p("strong",{text:`${i} `}),n?"touches":s?"free":"free so far",p("span",{class:"quiet",text:` ${t??""}`}),n?p("ul",{},e.split("; ").map(r=>p("li",{text:r}))):null))}var fm=8,Nn,pm,mm,gm,_m,xm,Es=class{constructor(t,e,n,s){vt(this,Nn);this.control=t,this.calls=s,this.id=Hn("set",e),this.gesture=`set ${e}`;let o={number:()=>x(this,Nn,pm).call(this,n),choice:()=>x(this,Nn,mm).call(this,n),switch:()=>x(this,Nn,gm).call(this,n)}[t.type]();this.note??(this.note=new vr(this.input,`${this.id}-note`)),this.element=p("div",{class:`field field-${t.type}`},o,this.note.element)}update(t,e,n){if(this.control.type==="number"){this.typing.update(t,n),x(this,Nn,xm).call(this,t,e);return}n!==this.note.words&&this.note.say(n),this.control.type==="switch"?(nt(this.input,{checked:t===!0}),nt(this.input.nextSibling,{textContent:t===!0?"on":"off"})):nt(this.input,{value:t??""})}};Nn=new WeakSet,pm=function(t){let{control:e}=this,{least:n,most:s,step:r,unit:o}=e;return this.slider=p("input",{type:"range",id:`${this.id}-slider`,min:n,max:s,step:r,"aria-label":`${t}, slider`,oninput:()=>x(this,Nn,_m).call(this),onchange:()=>this.calls.end()}),this.tick=p("span",{class:"tick","aria-hidden":"true"}),this.typing=new vs({id:this.id,name:o?`${t}, ${o}`:t,note:`${this.id}-note`,accepts:()=>e,text:a=>a===null?"":ei(a),calls:{take:a=>this.calls.set(a,null),step:a=>this.calls.set(Number(a.toFixed(Math.max(e.decimals,3))),this.gesture),end:()=>this.calls.end()}}),this.input=this.typing.input,this.note=this.typing.note,[p("div",{class:"slide"},this.slider,this.tick),p("span",{class:s>=1e4?"number long":"number"},this.input,p("span",{class:"unit",text:o,"aria-hidden":"true"})),this.typing.range]},mm=function(t){let e=this.control.choices.map(({value:n,label:s})=>p("option",{value:n,text:s}));return this.input=p("select",{id:this.id,"aria-label":t,"aria-describedby":`${this.id}-note`,onchange:()=>this.calls.set(this.input.value,null)},e),this.input},gm=function(t){return this.input=p("input",{type:"checkbox",role:"switch",id:this.id,"aria-label":t,"aria-describedby":`${this.id}-note`,onchange:()=>this.calls.set(this.input.checked,null)}),p("label",{class:"switch"},this.input,p("span",{text:"off"}))},_m=function(){let{least:t,step:e}=this.control,n=Math.round((Number(this.slider.value)-t)/e),s=Number((t+n*e).toFixed(6));this.typing.quiet(),this.calls.set(s,this.gesture)},xm=function(t,e){let{least:n,most:s,unit:r}=this.control;if(nt(this.slider,{value:String(t??n)}),ke(this.slider,{"aria-valuetext":t===null?"not set":We(ei(t),r)}),this.slider.classList.toggle("unset",t===null),st(this.tick,e!==null),e!==null){let o=(e-n)/(s-n);this.tick.style.left=`calc(${fm}px + ${o} * (100% - ${2*fm}px))`,nt(this.tick,{title:`as in the case: ${We(ei(e),r)}`})}};function ym(i,t,e){let n=p("p",{class:"help",id:`${i}-help-words`,text:e});st(n,!1);let s=p("button",{type:"button",class:"help-button",id:`${i}-help`,"aria-expanded":"false","aria-controls":n.id,"aria-label":`What is “${t}”?`,title:e,text:"?",onclick:()=>{st(n,n.hidden),s.setAttribute("aria-expanded",String(!n.hidden))}});return{button:s,text:n}}function vm(i,t,e){return p("button",{type:"button",class:"reset-button",id:`${i}-reset`,"aria-label":`Put back: ${t}`,title:"Put back to the case",onclick:e},hn("reset"))}var Mm={right:"Right",left:"Left",both:""},Vv=["condyles"],Ce,Sm,bm,wm,Tm,Am,Em,Cm,Rm,Im,na=class{constructor(t){vt(this,Ce);this.calls=t,this.groups=[]}make(t,e){let n=new Map(t.flatMap(({controls:s})=>s.map(({id:r,label:o})=>[r.split(".").at(-1),o])));this.groups=t.map((s,r)=>x(this,Ce,Sm).call(this,s,n,r)),this.scans=p("div",{class:"scans-told",id:"scans-told"}),It("settings-body").replaceChildren(this.scans,e,...this.groups.map(({element:s})=>s))}isLinked(t){return t.sided&&t.linkInput.checked}update({settings:t,case:e,linked:n,fault:s}){let{values:r,hidden:o}=e;e!==this.about&&x(this,Ce,Em).call(this,e),this.about=e,this.valueOf=h=>h in t.changes?t.changes[h]:r[h]??null,this.usualOf=h=>r[h]??null;let a=new Set(s?.keys??[]),l=0;for(let h of this.groups){let d=x(this,Ce,Cm).call(this,h,t,o,n,a,s);nt(h.changed,{textContent:d?`${d} changed`:""}),l+=d}nt(It("settings-note"),{textContent:Hv(l,t.trial)});let c=this.groups.find(({hasFault:h})=>h);c&&s!==this.lastFault&&(c.element.open=!0),this.lastFault=s}inWords(t){let e=new Map;for(let{rows:n}of this.groups)for(let{control:s}of n)e.set(s.id.split(".").at(-1).replace("_side",""),s.label);return t.replace(/\bchange\[(\d+)\](?:\.|: )/g,(n,s)=>`trial set-up, change ${Number(s)+1}: `).replace(/\bguidance\.(right|left)(?=[:.])\.?/g,(n,s)=>`${s} condylar guidance`).replace(/\b[a-z]+(?:_[a-z0-9]+)+\b/g,n=>{let s=e.get(n);return s?`“${s}”`:n.replaceAll("_"," ")})}told(t,e){let n=this.nameOf(t);return`${n?.name??t} ${Fh(n?.control,e)}`}nameOf(t){for(let{rows:e}of this.groups)for(let{control:n}of e)for(let[s,r]of Object.entries(n.keys))if(r===t)return{control:n,name:s==="both"?n.label:`${n.label}, ${s}`};return null}};Ce=new WeakSet,Sm=function(t,e){let n=t.controls.some(({keys:r})=>"right"in r),s={group:t,sided:n};return s.changed=p("span",{class:"changed-count"}),s.rows=t.controls.map(r=>x(this,Ce,Tm).call(this,r,s,e)),s.link=n?x(this,Ce,bm).call(this,s):null,s.element=p("details",{id:Hn("group",t.id),class:"group",open:Vv.includes(t.id)},p("summary",{},p("h3",{text:t.title}),s.changed),p("p",{class:"quiet",text:t.words}),s.link,s.rows.map(({element:r})=>r)),s},bm=function(t){let e=Hn("linked",t.group.id);return t.linkInput=p("input",{type:"checkbox",role:"switch",id:e,onchange:()=>x(this,Ce,wm).call(this,t,t.linkInput.checked)}),p("label",{class:"switch linked",for:e},t.linkInput,p("span",{text:"Right and left alike"}))},wm=function(t,e){let n={};if(e)for(let{control:s}of t.rows)s.keys.right&&(n[s.keys.left]=this.valueOf(s.keys.right));this.calls.link(t.group.id,e,n)},Tm=function(t,e,n){let s=t.help.replace(/`([^`]+)`/g,(d,u)=>{let f=n.get(u.split(".").at(-1));return f?`“${f}”`:u.replaceAll("_"," ")}),r=Hn("set",Object.values(t.keys)[0]),{button:o,text:a}=ym(r,t.label,s),l=Object.entries(t.keys).map(([d,u])=>x(this,Ce,Am).call(this,t,e,d,u)),c=t.type==="number"?Do(t):"",h=p("div",{class:"control",role:"group","aria-label":t.label},p("div",{class:"control-head"},p("span",{class:"label",text:t.label}),o),a,l.map(d=>d.element));return c&&a.append(` ${c}`),{control:t,element:h,sides:l}},Am=function(t,e,n,s){let r=Mm[n],o=r?`${t.label}, ${r.toLowerCase()}`:t.label,a=()=>n==="right"&&this.isLinked(e)?Object.values(t.keys):[s],l=(f,m)=>this.calls.set(Object.fromEntries(a().map(S=>[S,f])),m),c=new Es(t,s,o,{set:l,end:()=>this.calls.end()}),h=vm(c.id,o,()=>{this.calls.set(Object.fromEntries(a().map(f=>[f,this.usualOf(f)])),null),c.input.focus()}),d=r?p("span",{class:"side",text:r}):null,u=p("div",{class:`side-row${r?" sided":""}`},d,c.element,h);return{side:n,path:s,field:c,reset:h,element:u,tag:d}},Em=function({scans:t,name:e}){st(this.scans,t.length>0);let n=document.getElementById("first-steps");n&&st(n,t.length===0),this.scans.replaceChildren(p("ul",{},t.map(s=>p("li",{text:s}))),p("button",{type:"button",class:"small",id:"scans-points",text:"Points on the casts…",onclick:()=>this.calls.points(e)}))},Cm=function(t,e,n,s,r,o){let a=t.rows.every(({control:{keys:h}})=>!h.right||this.valueOf(h.right)===this.valueOf(h.left)),l=t.sided&&a&&s[t.group.id]!==!1;t.linkInput&&nt(t.linkInput,{checked:l});let c=0;t.hasFault=!1;for(let{control:h,element:d,sides:u}of t.rows){let f=u.filter(({side:m})=>!(l&&m==="left")&&x(this,Ce,Rm).call(this,h,m));st(d,f.length>0&&!n.includes(h.id));for(let m of u){let S=m.path in e.changes,g=r.has(m.path);c+=S?1:0,t.hasFault||(t.hasFault=g),st(m.element,f.includes(m)),nt(m.reset,{disabled:!S}),m.element.classList.toggle("changed",S),m.tag&&nt(m.tag,{textContent:l?"Both":Mm[m.side]}),m.field.update(this.valueOf(m.path),this.usualOf(m.path),g?x(this,Ce,Im).call(this,m,o):"")}}return st(t.element,t.rows.some(({control:h})=>!n.includes(h.id))),c},Rm=function(t,e){return Object.entries(t.needs??{}).every(([n,s])=>this.valueOf(n.replace("{side}",e))===s)},Im=function({path:t},{text:e}){let n=e.split(`
`),s=t.slice(0,t.lastIndexOf(".")),r=n.filter(a=>a.startsWith(s)),o=this.inWords((r.length?r:n).join(`
`));return o.charAt(0).toUpperCase()+o.slice(1)};function Hv(i,t){let e=[i?gi(i,"setting"):"",t?"teeth":""].filter(Boolean);return e.length?`${e.join(" and ")} changed`:"as in the case"}function Fh(i,t){return t===null?"not set":typeof t=="boolean"?t?"on":"off":typeof t=="number"?We(ei(t),i?.unit??""):i?.choices.find(e=>e.value===t)?.label??String(t)}var Pm="Largest load across replacement teeth",un,Nm,Dm,Om,Um,Fm,km,ia=class{constructor(t,e){vt(this,un);this.named=e,this.chosen=ni("edited","Settings shown of",[["a","A"],["b","B"]],t.choose),this.settings=p("div",{id:"differences"}),this.pose=p("div",{id:"compare-pose"}),this.guides=p("div",{id:"compare-guides"}),this.charts=["a","b"].map(n=>new ws(`touch-chart-${n}`,t.travel,t.end)),this.findings=p("div",{id:"compare-findings"}),this.replacement=p("div",{id:"compare-replacement"}),this.loads=p("div",{id:"compare-loads"}),this.element=p("div",{id:"results-of-two"},p("div",{class:"compare-head"},this.chosen.element),$e("differences","Settings that differ",this.settings),$e("compare-pose","In this pose",this.pose),$e("compare-guides","What guides",this.guides),$e("compare-touch","Teeth in contact",this.charts.map(({element:n},s)=>[p("h4",{text:"AB"[s]}),n])),$e("compare-replacement","Replacement teeth that touch",this.replacement),$e("compare-loads",Pm,this.loads),$e("compare-findings","Findings",this.findings))}update(t,e,n){let{a:s,b:r}=t;this.chosen.update(e.chosen),x(this,un,Nm).call(this,s,r,e,n.trial),x(this,un,Dm).call(this,s,r),[s,r].forEach((a,l)=>{this.charts[l].show(a.excursion(e.movement,e.start),n.styles[e.movement]),this.charts[l].at_mm(e.travel_mm)}),x(this,un,Fm).call(this,s,r),this.element.classList.toggle("old",[s,r].some(a=>a.results!==null&&!a.fresh)),ke(this.element,{"aria-busy":s.computing||r.computing});let o=[s,r].map(({results:a,fresh:l})=>`${a?.header.number} ${a?.header.kind} ${l}`).join();o!==this.key&&(this.key=o,x(this,un,Om).call(this,s,r),x(this,un,km).call(this,s,r,n),x(this,un,Um).call(this,s,r))}};un=new WeakSet,Nm=function(t,e,n,s){if(!t.case||!e.case)return;let r=Xf(n.a,n.b,t.case.values,e.case.values),o=n.a.case===n.b.case?[]:[["Case",t.case.title,e.case.title]],a=(d,u)=>Fh(this.named(d)?.control,u),l=[t,e].map(({which:d,case:u})=>Oo(xs(n[d],u.trial),s)||"none");l[0]!==l[1]&&o.push(["Trial set-up",...l]);let c=[...o,...r.map(({path:d,one:u,other:f})=>[this.named(d)?.name??d,a(d,u),a(d,f)])],h=JSON.stringify(c);h!==this.settingsKey&&(this.settingsKey=h,this.settings.replaceChildren(c.length?Lr("Settings that differ","Setting",c):p("p",{class:"quiet",text:"None yet. Choose A or B, and change a setting of it."})))},Dm=function(t,e){let[n,s]=[t,e].map(({pose:a})=>a?.header);if(!n||!s||n===this.one&&s===this.other)return;Object.assign(this,{one:n,other:s});let r=a=>{let l=[...new Set(a.contacts.map(({upper:c,lower:h})=>`${c} / ${h}`))];return l.length?l.join(", "):"none"},o=({next:a})=>a?`${a.upper} / ${a.lower}, ${dh(a.gap_mm)}`:"–";this.pose.replaceChildren(Lr("Contacts of this pose","Teeth",[["in contact",r(n),r(s)],["next, after so much closing",o(n),o(s)]]))},Om=function(t,e){let n=o=>o.results?.header.guidance??[],s=new Map(n(e).map(o=>[o.title,o.words])),r=n(t).map(({title:o,words:a})=>[o,a,s.get(o)??Lm(e)]);this.guides.replaceChildren(Lr("What guides","Movement",r))},Um=function(t,e){let n=o=>o.results?.header.replacement??[],s=(o,a)=>{let l=n(o).find(c=>c.tooth===a);return l?l.touches?`◆ ${l.words}`:o.results.whole?"◇ free":"◇ free so far":Lm(o)},r=[...new Set([...n(t),...n(e)].map(({tooth:o})=>o))];this.replacement.replaceChildren(r.length?Lr("Replacement teeth","Tooth",r.map(o=>[String(o),s(t,o),s(e,o)])):p("p",{class:"quiet",text:"There are no replacement teeth."}))},Fm=function(t,e){let n=[t,e].map(({freshLoads:a})=>`${a?.header.number} ${a?.header.excursions.length}`).join();if(n===this.loadsKey)return;this.loadsKey=n;let[s,r]=[t,e].map(Wv),o=[...new Set([...s.keys(),...r.keys()])];st(this.loads.parentElement,o.length>0),this.loads.replaceChildren(Lr(Pm,"Movement",o.map(a=>[a,s.get(a)??"–",r.get(a)??"–"])))},km=function(t,e,n){let s=[t,e].map(({results:l})=>l?.header),r=s.map(l=>new Map((l?.findings??[]).filter(({severity:c})=>c!=="note").map(c=>[c.lead,c]))),o=l=>[...r[l].values()].filter(({lead:c})=>!r[1-l].has(c)),a=l=>{let c=As([t,e][l]);return c?p("span",{class:"quiet",text:c}):null};this.findings.replaceChildren(...s.flatMap((l,c)=>[p("p",{class:"counts"},p("strong",{text:`${"AB"[c]} `}),hh(l?.counts,n.severities),a(c)),o(c).length?p("ul",{class:"only"},o(c).map(h=>p("li",{},p("span",{class:`sign ${h.severity}`,"aria-hidden":"true",text:`${h.sign} `}),p("span",{class:"spoken",text:`${h.severity}: `}),`only ${"AB"[c]}: ${h.lead}`))):p("p",{class:"quiet",text:As([t,e][c])?"":`None that only ${"AB"[c]} has, notes left out.`})]))};function Wv({freshLoads:i}){return new Map((i?.header.excursions??[]).flatMap(({title:t,frames:e})=>e.map(({framework:n,largest:s,none:r})=>[e.length>1?`${t}, ${n}`:t,s?Ae(`${s.words} ${s.where}`):r])))}function Lm(i){return i.results?.whole?"–":i.computing?"not yet":"not computed"}function kh(i){return i.replaceAll(/(latero)(protrusion)/gi,"$1­$2")}function Lr(i,t,e){return p("table",{class:"two"},p("caption",{class:"spoken",text:i}),p("thead",{},p("tr",{},[t,"A","B"].map(n=>p("th",{scope:"col",text:n})))),p("tbody",{},e.map(([n,s,r])=>p("tr",{class:s===r?"":"differs"},p("th",{scope:"row",text:kh(n)}),p("td",{text:kh(s)}),p("td",{text:kh(r)})))))}var Xv=[["undo","Undo","Undo (Ctrl+Z)"],["redo","Redo","Redo (Ctrl+Shift+Z)"],["reset","Reset","Reset: put every setting and tooth back to the case"]],$v=[["lessons","lessons","Lessons","Lessons: predict, move, see, explain"],["copy-link","link","Link","Copy a link to what is shown"],["save-state","save","Save","Save what is shown as a file"],["open-state","open","Open","Open a saved state"],["case-file","casefile","Case file","Save the settings as a case file for the command line"],["picture","picture","Picture","Save the picture of the casts (PNG), with a caption"],["report","report","Report","Make the full report; takes several seconds"],["compare","compare","Compare","Compare two states side by side"],["help","help","Help","Help on keys and words"]];function Bm(i){for(let[t,e,n]of Xv)It("steps").append(p("button",{id:t,type:"button",title:n,"aria-label":n,onclick:()=>i[t]()},hn(t),p("span",{text:e})));for(let[t,e,n,s]of $v){let r=p("button",{id:t,type:"button",title:s,"aria-label":s,onclick:()=>i[t]()},hn(e),p("span",{text:n}));It("commands").append(r)}It("compare").setAttribute("aria-pressed","false"),It("case-chooser").addEventListener("change",t=>i.case(t.target.value))}function zm(i){It("cautions").textContent=i.cautions,It("version").textContent=`Cuspway ${i.version}`,Bh(i),It("case-chooser").disabled=!1,It("own-casts").disabled=!1}function Bh(i){let t=i.cases.map(({name:e,title:n})=>p("option",{value:e,text:n}));It("case-chooser").replaceChildren(...t)}function Gm(i,t,e){nt(It("undo"),{disabled:!i.canUndo}),nt(It("redo"),{disabled:!i.canRedo});let{case:n,changes:s,trial:r}=t[t.chosen];nt(It("reset"),{disabled:Object.keys(s).length===0&&!r}),e&&nt(It("case-chooser"),{value:n});let o=t.b!==null,a=o?`Compare: end it, and keep ${t.chosen.toUpperCase()}`:"Compare two states side by side";ke(It("compare"),{"aria-pressed":o,"aria-label":a,title:a})}var qv=300,Yv=[0,.5,1,2,3],si,Vm,Hm,Wm,Xm,sa=class{constructor(t){vt(this,si);this.desk=t}soon(){this.frame||(this.frame=requestAnimationFrame(()=>{this.frame=0,x(this,si,Vm).call(this)}))}travel(){let{state:t,study:e,studies:n,welcome:s}=this.desk,r=e?.excursion(t.movement,t.start)??null,o=e?.case?.readings_mm??Yv;this.desk.movementBar.update(t,r,o,t.movement===xi),t.b===null?this.desk.results.update(n.a,t,s):n.b&&this.desk.comparison.update(n,t,s)}};si=new WeakSet,Vm=function(){let{desk:t}=this,{state:e,study:n,studies:s,welcome:r}=t;if(t.commands.tellLinks(Object.values(s)),t.panes.work(s,e),document.documentElement.dataset.state=Zv(Object.values(s)),!e||!r)return;let o=document.activeElement!==It("case-chooser")||n.case?.name===e[e.chosen].case;Gm(t.ownCasts.picking?t.ownCasts.history:t.history,e,o),t.lookBar.update(e),t.panes.update(s,e,r),t.movementBar.playing(t.playing.on),n?.case&&x(this,si,Hm).call(this,n,e),x(this,si,Wm).call(this,e),this.travel(),x(this,si,Xm).call(this)},Hm=function(t,e){let{desk:n}=this;if(t.case!==this.named&&(this.named=t.case,n.movementBar.setMovements(t.case.movements,t.case.not_offered)),t.case.name!==e[e.chosen].case)return;n.settings.update({settings:e[e.chosen],case:t.case,linked:e.display.linked,fault:t.fault}),n.trial.update(e[e.chosen],t,e.display);let s=e.b?`Settings of ${e.chosen.toUpperCase()}`:"Settings";nt(It("settings-title"),{textContent:s})},Wm=function(t){let{desk:e}=this,n=t.b!==null;st(e.results.element,!n),st(e.comparison.element,n),nt(It("results-note"),{textContent:Jv(Object.values(e.studies))});let{a:s}=e.studies;s.whole&&(document.documentElement.dataset.rested=String(s.results.header.number))},Xm=function(){clearTimeout(this.linkTimer),this.linkTimer=setTimeout(()=>{let{desk:t}=this;t.playing.on||(t.fragment=Fo(_r(t.state)),location.hash!==t.fragment&&history.replaceState(null,"",t.fragment))},qv)};function Jv(i){let t=i.filter(({whole:e})=>!e);return t.length===0?"up to date":t.some(({fault:e})=>e)?"of the last good state":t.some(({link:e})=>e==="apart")?"not computed: no connection":"still being computed"}function Zv(i){let t=e=>i.some(e);return t(({link:e})=>e==="apart")?"apart":t(({pose:e,fault:n})=>!e&&!n)?"loading":t(({connection:e})=>e.busy)?"working":t(({fault:e})=>e)?"fault":"ready"}var $m="cuspway first steps seen",Kv="upper_distal_extension",ra={movement:"left lateral",start:"MI",travel_mm:2,opening_mm:0,map:"pose"},jv="right",Qv=[{id:"try-1",words:"Slide to the left. In the case as it is, replacement tooth 15 rubs on 46 from 1.5 to 2.9 mm, on the nonworking side.",button:"Left lateral, 2 mm",settings:{},state:ra},{id:"try-2",words:"Make the right condylar guide steeper, 35° to 45°. The jaw drops more on that side, and 15 is free.",button:"Right condyle 45°",settings:{"guidance.right.condylar_inclination_deg":45},state:ra},{id:"try-3",words:"Back at 35°, give the right condyle an immediate side shift of 0.5 mm. 15 touches sooner, from 1.1 mm, and 17 rubs on 47 as well.",button:"Side shift 0.5 mm",settings:{"guidance.right.immediate_shift_mm":.5},state:ra},{id:"try-4",words:"Change the tooth instead: 46 lowered by 1.2 mm, back to the plane of its neighbours, and 15 is free. More under “Change a tooth”.",button:"46 lowered 1.2 mm",settings:{},trial:[{kind:"lower",tooth:46,by_mm:1.2}],state:ra}];function qm(i){if(tM())return;let t=p("section",{id:"first-steps","aria-labelledby":"first-steps-title"},p("div",{class:"panel-head"},p("h2",{id:"first-steps-title",text:"Try this"}),p("button",{type:"button",id:"first-steps-close",class:"icon-only","aria-label":"Put “Try this” away",title:"Put away",onclick:()=>{eM(),t.remove(),It("settings").querySelector("summary")?.focus()}},hn("close")))),e=Qv.map(({id:s,words:r,button:o,settings:a,trial:l,state:c},h)=>p("li",{},p("button",{type:"button",class:"small",id:s,text:o,onclick:()=>{n(h),i(Kv,{changes:a,...l&&{trial:l}},c,jv)}}),p("p",{text:r}))),n=s=>e.forEach((r,o)=>st(r.lastChild,o===s));n(0),t.append(p("ol",{},e)),It("settings").prepend(t)}function tM(){try{return localStorage.getItem($m)==="yes"}catch{return!1}}function eM(){try{localStorage.setItem($m,"yes")}catch{}}var Nr,zh,Cs=class{constructor(t){vt(this,Nr);this.present=t,this.past=[],this.future=[],this.gesture=null,this.run=null}put(t,e=null,n=null){if(t===this.present)return;e!==null&&e===this.gesture||n!==null&&n===this.run||(this.past.push(this.present),this.past.length>200&&this.past.shift()),this.future=[],this.gesture=e,this.run=n,this.present=t}amend(t){this.present=t}end(){this.gesture=null}get canUndo(){return this.past.length>0}get canRedo(){return this.future.length>0}undo(){return x(this,Nr,zh).call(this,this.past,this.future)}redo(){return x(this,Nr,zh).call(this,this.future,this.past)}};Nr=new WeakSet,zh=function(t,e){return this.gesture=null,this.run=null,t.length===0?!1:(e.push(this.present),this.present=t.pop(),!0)};var Ym="http://www.w3.org/1998/Math/MathML",nM=["mrow","mi","mn","mo","mfrac","msub","msup","msqrt","mfenced","mtext"];function Jm([i,...t]){if(!nM.includes(i))throw new Error(`no formula has <${i}>`);let e=document.createElementNS(Ym,i);for(let n of t)e.append(typeof n=="string"?n:Jm(n));return e}function Rs(i,t=!1){let e=document.createElementNS(Ym,"math");return t&&e.setAttribute("display","block"),e.append(...i.map(Jm)),e}var iM={true:"✓",false:"○"},_e,Km,Gh,Vh,jm,Qm,tg,eg,ng,Hh,aa=class{constructor(t){vt(this,_e);this.calls=t,this.head=p("h2",{id:"lesson-title",tabindex:"-1"}),this.where=p("p",{class:"quiet",id:"lesson-where"}),this.about=p("p",{id:"lesson-about"}),this.body=p("div",{id:"lesson-body"}),this.element=p("section",{id:"lesson","aria-labelledby":"lesson-title"},p("div",{class:"panel-head"},this.head,p("button",{type:"button",class:"icon-only",id:"lesson-close","aria-label":"Leave the lesson",title:"Leave the lesson",onclick:()=>t.leave()},hn("close"))),this.where,this.about,this.body),st(this.element,!1),x(this,_e,Km).call(this)}begin(t,{place:e,round:n,rounds:s,last:r}){this.head.textContent=t.title,this.where.textContent=s>1?`${e}, round ${n+1} of ${s}`:e,this.about.textContent=t.about,this.next.textContent=n+1<s?"Next round":r?"All lessons":"Next lesson",this.chosen=null,this.predicted=null,this.end=null,this.words=null,this.choose.disabled=!0,this.working.textContent="Getting the teeth and the figures ready";for(let o of Object.values(this.steps))st(o,!1);st(this.choose,!0),st(this.element,!0),this.head.focus()}came(t){if(t.away)return x(this,_e,Gh).call(this,"The lesson is about another case.");if(t.fault)return x(this,_e,Gh).call(this,`This cannot be read here: ${t.fault}.`);x(this,_e,Vh).call(this,""),t.done&&this.predicted!==null&&(this.end=t);let e=JSON.stringify([t.predict,t.answers]);(this.words===null||this.predicted===null&&e!==this.words)&&x(this,_e,jm).call(this,t,e),this.task.textContent=Ae(t.move),this.goal.replaceChildren(...t.goal.map(({words:n,reached:s})=>p("li",{class:s?"reached":""},p("span",{class:"mark","aria-hidden":"true",text:iM[s]}),` ${n}`,p("span",{class:"spoken",text:s?": reached":": not yet"})))),x(this,_e,eg).call(this,t.readings),x(this,_e,ng).call(this),x(this,_e,Hh).call(this)}};_e=new WeakSet,Km=function(){this.question=p("p",{id:"lesson-question"}),this.answers=p("div",{id:"lesson-answers",role:"radiogroup","aria-labelledby":"lesson-question"}),this.choose=p("button",{type:"button",id:"lesson-predict",text:"That is what I expect",disabled:!0,onclick:()=>x(this,_e,tg).call(this)}),this.task=p("p",{id:"lesson-task"}),this.goal=p("ul",{id:"lesson-goal"}),this.showButton=p("button",{type:"button",class:"small",id:"lesson-show",text:"Show me",onclick:()=>this.calls.show()}),this.table=p("table",{id:"lesson-readings"}),this.verdict=p("p",{id:"lesson-verdict",role:"status"}),this.explanation=p("p",{id:"lesson-explanation"}),this.formula=p("div",{id:"lesson-formula"}),this.next=p("button",{type:"button",id:"lesson-next",onclick:()=>this.calls.next()}),this.working=p("p",{class:"quiet",id:"lesson-working",role:"status"}),this.steps={predict:oa("1 Predict",this.question,this.answers,this.choose),move:oa("2 Move",this.task,this.goal,this.showButton),see:oa("3 See",this.table,this.verdict),explain:oa("4 Explain",this.explanation,this.formula,this.next)},this.body.append(this.working,...Object.values(this.steps))},Gh=function(t){x(this,_e,Vh).call(this,t,!0);for(let e of this.table.querySelectorAll(".now"))e.textContent="–";for(let e of this.goal.querySelectorAll(".mark"))e.textContent="–"},Vh=function(t,e=!1){this.working.replaceChildren(t,...e?[" ",p("button",{type:"button",class:"small",id:"lesson-back",text:"Back to its start",onclick:()=>this.calls.back()})]:[]),this.working.classList.toggle("lesson-away",e),st(this.working,t!=="")},jm=function({predict:t,answers:e},n){this.words=n,this.chosen=null,this.choose.disabled=!0,this.question.textContent=Ae(t),this.answers.replaceChildren(...e.map((s,r)=>p("label",{class:"answer"},p("input",{type:"radio",name:"lesson-answer",value:String(r),onchange:()=>x(this,_e,Qm).call(this,r)}),p("span",{text:s}))))},Qm=function(t){this.chosen=t,this.choose.disabled=!1},tg=function(){this.predicted=this.chosen;for(let t of this.answers.querySelectorAll("input"))t.disabled=!0;st(this.choose,!1),x(this,_e,Hh).call(this),this.steps.move.querySelector("h3").focus()},eg=function(t){let e=["","at the start","now"].map(n=>p("th",{scope:"col",text:n}));this.table.replaceChildren(p("thead",{},p("tr",{},e)),p("tbody",{},t.map(n=>p("tr",{},p("th",{scope:"row",text:n.name}),p("td",{text:n.start}),p("td",{class:"now",text:n.now})))))},ng=function(){let{end:t}=this;if(!t)return;let e=this.answers.querySelectorAll("label span"),n=t.right.flatMap((o,a)=>o?[e[a].textContent]:[]),s=t.right[this.predicted],r=e[this.predicted].textContent;this.verdict.className=s?"hit":"missed",this.verdict.textContent=s?`✓ You expected: “${r}”. So it is.`:`✗ You expected: “${r}”. It is: “${n.join("”, “")}”.`,this.explanation.textContent=Ae(t.explain),this.formula.replaceChildren(...t.formula?sM(t.formula):[])},Hh=function(){st(this.steps.predict,this.words!==null),st(this.steps.move,this.predicted!==null),st(this.steps.see,this.predicted!==null),st(this.verdict,this.end!==null),st(this.steps.explain,this.end!==null),st(this.showButton,this.end===null)};function oa(i,...t){return p("div",{class:"lesson-step"},p("h3",{tabindex:"-1",text:i}),t)}function sM({equation:i,numbers:t,result:e,given:n,found:s,meaning:r,terms:o,source:a,exact:l}){let c=s===""?"":`; measured on the casts: ${s}`,h=l?"":" (to first order)";return[p("div",{class:"formula-line",tabindex:"0",role:"group","aria-label":"Formula"},Rs([i],!0)),p("div",{class:"formula-line numbers",tabindex:"0",role:"group","aria-label":"Formula with numbers"},...rM(t).flatMap(d=>[Rs(d)," "])),p("p",{class:"formula-result"},Rs([e,["mo","="],["mn",n]]),`${h}${c}`),p("dl",{class:"facts formula-terms"},o.map(d=>p("div",{},p("dt",{},Rs([d.symbol]),` ${d.meaning}`),p("dd",{text:d.value}))),p("div",{},p("dt",{},Rs([e]),` ${r}`),p("dd",{text:n}))),p("p",{class:"quiet",text:`Where from: ${a}.`})]}function rM(i){let[,t,e,n]=i,s=n[0]==="mrow"&&n.slice(1).some(Zm)?n.slice(1):[n],r=[[t,e]];for(let o of s)Zm(o)||r.length===1?r.push([o]):r.at(-1).push(o);return r}function Zm([i,t]){return i==="mo"&&(t==="+"||t==="−")}var ig="cuspway lessons done",mn,sg,Wh,la,rg,ca=class{constructor(t){vt(this,mn);this.desk=t,this.panel=new aa({leave:()=>this.leave(),back:()=>x(this,mn,la).call(this,this.lesson.start),show:()=>x(this,mn,la).call(this,this.lesson.shown[this.round]),next:()=>x(this,mn,rg).call(this)}),It("results").prepend(this.panel.element),this.done=new Set(oM())}open(){let t=It("lessons-dialog"),{lessons:e}=this.desk.welcome??{};e&&(t.replaceChildren(p("h2",{id:"lessons-title",tabindex:"-1",autofocus:!0,text:"Lessons"}),p("p",{class:"quiet",text:"Each asks what you expect, lets you move the jaw or its settings, and shows and explains what the program finds."}),p("ol",{},e.map(n=>p("li",{},p("button",{type:"button",class:"lesson-choice","data-lesson":n.name,onclick:()=>x(this,mn,sg).call(this,t,n.name)},p("span",{class:"lesson-name",text:n.title}),this.done.has(n.name)?p("span",{class:"lesson-done",text:"✓ done"}):null,p("span",{class:"quiet",text:n.about}))))),p("button",{type:"button",id:"lessons-close",text:"Close",onclick:()=>t.close()})),t.showModal())}begin(t,e=0){let{lessons:n}=this.desk.welcome,s=n.findIndex(r=>r.name===t);this.lesson=n[s],this.round=e,x(this,mn,Wh).call(this,{name:t,round:e}),this.panel.begin(this.lesson,{place:`Lesson ${s+1} of ${n.length}`,round:e,rounds:this.lesson.shown.length,last:s+1===n.length}),e===0?x(this,mn,la).call(this,this.lesson.start):this.desk.asking.now()}came(t){t.name!==this.lesson?.name||t.round!==this.round||this.panel.came(t)}leave(){this.lesson=null,x(this,mn,Wh).call(this,null),st(this.panel.element,!1),It("results").focus()}};mn=new WeakSet,sg=function(t,e){t.close(),this.begin(e)},Wh=function(t){this.desk.studies.a.lesson=t,document.documentElement.toggleAttribute("data-lesson",t!==null)},la=function({changes:t,trial:e,...n}){this.desk.goTo(this.lesson.case,{changes:t,...e&&{trial:e}},{...n,opening_mm:0,map:"pose"},this.lesson.look),this.desk.asking.now()},rg=function(){let{lessons:t}=this.desk.welcome;if(this.round+1<this.lesson.shown.length){this.begin(this.lesson.name,this.round+1);return}this.done.add(this.lesson.name),aM([...this.done]);let e=t[t.indexOf(this.lesson)+1];e?this.begin(e.name):(this.leave(),this.open())};function oM(){try{let i=JSON.parse(localStorage.getItem(ig)??"[]");return Array.isArray(i)?i:[]}catch{return[]}}function aM(i){try{localStorage.setItem(ig,JSON.stringify(i))}catch{}}var og=[["solid","solid"],["ghosted","ghosted"],["away","away"]],hg=[["front","Front"],["right","Right"],["left","Left"],["upper occlusal","Upper occlusal surface"],["lower occlusal","Lower occlusal surface"],["mouth","Into the mouth"],["behind","Behind"]],lM=[["pose","gap in this pose"],["excursion","nearest in whole excursion"],["none","none"]],ag={"upper occlusal":"lower","lower occlusal":"upper",mouth:"upper"};function Dr(i,t){let e={look:t},[n,s]=[ag[i.look],ag[t]];return n&&n!==s&&i[n]==="away"&&(e[n]="solid"),s&&i[s]==="solid"&&(e[s]="away"),e}var ug=hg.map(([i])=>i);function dg(i){let t=ni("upper-shown","Upper",og,l=>i.display({upper:l})),e=ni("lower-shown","Lower",og,l=>i.display({lower:l})),n=lg("map-shown","Colours",lM,i.map),s=lg("look-from","View",hg,i.look),r=cg("around-shown","gums, base",l=>i.display({around:l})),o=cg("numbers-shown","numbers",l=>i.display({numbers:l})),a=p("button",{type:"button",id:"look-again",class:"small",text:"Fit",title:"Look from there again, at all of it",onclick:()=>i.look(s.input.value)});return s.element.append(a),It("look-bar").append(s.element,t.element,e.element,n.element,p("div",{class:"toggles"},r.element,o.element)),{update({display:l,map:c}){t.update(l.upper),e.update(l.lower),nt(n.input,{value:c}),nt(s.input,{value:l.look}),nt(r.input,{checked:l.around}),nt(o.input,{checked:l.numbers})}}}function lg(i,t,e,n){let s=p("select",{id:i,onchange:()=>n(s.value)},e.map(([r,o])=>p("option",{value:r,text:o})));return{input:s,element:p("div",{class:"chosen"},p("label",{for:i,text:t}),s)}}function cg(i,t,e){let n=p("input",{type:"checkbox",id:i,onchange:()=>e(n.checked)});return{input:n,element:p("label",{class:"toggle",for:i},n,p("span",{text:t}))}}var cM=1500,fg={fault:"■",apart:"▲",info:""},ha=class{constructor(){this.rows=new Map,this.place=It("notices"),this.spoken=It("spoken")}tell(t,e,n,{keeps:s=!1,act:r=null}={}){let o=this.rows.get(t);if(o&&o.words===n||(o?.element.remove(),this.rows.delete(t),!n))return;let a=s?null:p("button",{type:"button",class:"icon-only","aria-label":"Put away",onclick:()=>this.tell(t,e,"")},hn("close")),l=fg[e]?p("span",{class:"sign","aria-hidden":"true",text:fg[e]}):null,c=p("div",{class:`notice ${e}`,id:`notice-${t}`},l,p("p",{text:n}),r&&p("button",{type:"button",class:"small",id:`notice-${t}-act`,text:r.words,onclick:r.call}),a);this.place.append(c),this.rows.set(t,{words:n,element:c})}say(t){this.wanted=t,!this.timer&&(this.timer=setTimeout(()=>{this.timer=0,this.wanted!==this.spoken.textContent&&(this.spoken.textContent=this.wanted)},cM))}};var hM={upper:["upper_labels","bite","points"],lower:["lower_labels","bite","points"]};function pg(i,t,e){return t?(hM[i]??[]).filter(e):[]}var uM=[["upper","Upper scan","STL, PLY, OBJ or GLB"],["lower","Lower scan","STL, PLY, OBJ or GLB"],["upper_labels","Labels of the upper scan","JSON, if the scan holds none"],["lower_labels","Labels of the lower scan","JSON, if the scan holds none"],["bite","Bite record","text, only if the scans do not lie as they bite: the transform of the lower one, mm"],["points","Points picked before","CSV, if there are any"]],dM=[["mm","mm"],["cm","cm"],["m","m"],["inch","inch"],["um","µm"]],Qt,mg,Xh,$h,Or,gg,_g,xg,Ui,Ur,ua=class{constructor(t){vt(this,Qt);this.calls=t,this.rows=new Map,this.dialog=It("casts-dialog"),this.units=p("select",{id:"casts-units"},dM.map(([e,n])=>p("option",{value:e,text:n}))),this.status=p("p",{class:"quiet",id:"casts-status",role:"status"}),this.fault=p("p",{class:"wrong",id:"casts-fault",role:"alert"}),this.read=p("button",{type:"button",id:"casts-read",text:"Read the casts",onclick:()=>this.calls.read(this.units.value)}),this.stop=p("button",{type:"button",id:"casts-stop",text:"Stop",onclick:()=>this.calls.stop()}),this.dialog.append(p("h2",{id:"casts-title",tabindex:"-1",autofocus:!0,text:"Your own casts"}),p("p",{class:"quiet",text:"Files go to the program on this machine only, and are removed when the page is closed."}),...uM.map(e=>x(this,Qt,mg).call(this,...e)),p("div",{class:"casts-row"},p("label",{for:"casts-units",text:"Unit of the scans"}),this.units),this.status,this.fault,p("div",{class:"casts-buttons"},this.read,this.stop,p("button",{type:"button",id:"casts-close",text:"Close",onclick:()=>this.dialog.close()})));for(let e of[this.stop,this.fault])st(e,!1);nt(this.read,{disabled:!0})}open(t,e){let n=this.place&&this.place.key!==t.key;Object.assign(this,{place:t,token:e});for(let[s,r]of this.rows)r.input.accept=t.slots[s].endings.join(","),n&&(r.input.value="",r.read=!1,x(this,Qt,Ui).call(this,s,"",!1));x(this,Qt,Ur).call(this),this.dialog.open||this.dialog.showModal()}close(){this.dialog.close()}wereRead(){for(let t of this.rows.values())t.read=t.done}work(t){this.working=t!=="",nt(this.status,{textContent:t}),x(this,Qt,Ur).call(this)}tell(t,e=null){let n=this.rows.get(e);n&&t&&x(this,Qt,Ui).call(this,e,t,n.done,!0),nt(this.fault,{textContent:n?"":t}),st(this.fault,t!==""&&!n)}};Qt=new WeakSet,mg=function(t,e,n){let s=p("input",{type:"file",id:`file-${t}`,"aria-describedby":`file-${t}-hint file-${t}-said`,onchange:()=>x(this,Qt,_g).call(this,t)}),r=p("p",{class:"casts-said",id:`file-${t}-said`,role:"status"}),o=p("progress",{max:"1","aria-label":`${e}: sent`}),a=p("button",{type:"button",class:"small",id:`file-${t}-remove`,text:"Remove","aria-label":`Remove: ${e}`,onclick:()=>x(this,Qt,gg).call(this,t)});for(let l of[o,a])st(l,!1);return this.rows.set(t,{input:s,said:r,bar:o,remove:a,words:e,done:!1,read:!1}),p("div",{class:"casts-row"},p("label",{for:`file-${t}`,text:e}),p("div",{class:"casts-file"},s,a),p("span",{class:"quiet",id:`file-${t}-hint`,text:n}),o,r)},Xh=function(t,e=""){let n=this.rows.get(t);if(!this.calls.forget(t)){x(this,Qt,Ui).call(this,t,"Not taken back: the connection is lost. Try again when it is back.",n.done,!0);return}x(this,Qt,$h).call(this,n),n.read=!1,n.input.value="",x(this,Qt,Ui).call(this,t,e,!1)},$h=function(t){t.request?.abort(),t.request=null,st(t.bar,!1)},Or=function(t,e){this.calls.forget(t),x(this,Qt,Ui).call(this,t,e,!1,!0)},gg=function(t){x(this,Qt,Xh).call(this,t),this.tell(""),this.rows.get(t).input.focus()},_g=function(t){let e=this.rows.get(t);x(this,Qt,$h).call(this,e);let[n]=e.input.files;x(this,Qt,Ui).call(this,t,"",!1),this.tell("");for(let o of pg(t,e.read,a=>this.rows.get(a).read))x(this,Qt,Xh).call(this,o,`Taken back: it belonged to the ${t} scan before. Choose it again if it holds for the new one.`);if(e.read=!1,!n){this.calls.forget(t);return}let{endings:s,largest_bytes:r}=this.place.slots[t];s.some(o=>n.name.toLowerCase().endsWith(o))?n.size>r?x(this,Qt,Or).call(this,t,`It is larger than ${r/1e6} MB: export it with fewer triangles, or as binary STL or PLY.`):n.size===0?x(this,Qt,Or).call(this,t,"It is empty (0 bytes): was its export broken off?"):x(this,Qt,xg).call(this,t,n):x(this,Qt,Or).call(this,t,`“${n.name}” is not taken; its name must end with ${s.join(", ")}.`)},xg=function(t,e){let n=this.rows.get(t),s=new XMLHttpRequest;n.request=s;let r=new URLSearchParams({token:this.token,name:e.name});s.open("POST",`${this.place.address}/${t}?${r}`),s.upload.addEventListener("progress",({loaded:a,total:l})=>{n.bar.value=l?a/l:0});let o=a=>x(this,Qt,Or).call(this,t,a);s.addEventListener("load",()=>{st(n.bar,!1),n.request=null,s.status===200?x(this,Qt,Ui).call(this,t,`Sent: ${(e.size/1e6).toFixed(1)} MB`,!0):o(`Not taken: ${s.responseText.trim().slice(0,200)}.`)}),s.addEventListener("error",()=>{st(n.bar,!1),n.request=null,o("It could not be sent: the connection was lost. Choose it again.")}),n.bar.value=0,st(n.bar,!0),s.send(e),x(this,Qt,Ur).call(this)},Ui=function(t,e,n,s=!1){let r=this.rows.get(t);r.done=n,nt(r.said,{textContent:e}),r.said.classList.toggle("wrong",s),r.input.setAttribute("aria-invalid",String(s)),st(r.remove,r.input.files.length>0),x(this,Qt,Ur).call(this)},Ur=function(){let t=[...this.rows.values()].some(({request:n})=>n),e=this.rows.get("upper").done&&this.rows.get("lower").done&&!t;nt(this.read,{disabled:!e||this.working}),st(this.stop,!!this.working),this.working||nt(this.status,{textContent:e?"Both scans are there.":"Choose the files of both scans."})};function fM(i,t,e=!1){return!e&&i.point===t.point&&i.tooth===t.tooth}function qh(i,t,e,n=null){let s=e.points.find(({point:a})=>a===t.point)?.several??!1,r=n??i.findIndex(a=>fM(a,t,s)),o=r<0?[...i,t]:i.map((a,l)=>l===r?t:a);return pM(o,t,e)}function pM(i,{point:t},{ways:e}){let n=e.find(o=>o.points.includes(t));if(!n)return i;let s=o=>e.some(a=>a!==n&&a.points.includes(o.point));return i.filter(s).every(({proposed:o})=>o)?i.filter(o=>!s(o)):i}function yg(i,t){return i.filter((e,n)=>n!==t)}function Fr(i){return i.map(({point:t,tooth:e,place:n})=>({point:t,tooth:e,place:n}))}var Yh=({point:i})=>i.endsWith("_seed");function Jh(i){return i.filter(t=>!(Yh(t)&&t.proposed))}function vg(i){if(!Yh(i)||!i.proposed)return i;let{point:t,tooth:e,place:n}=i;return{point:t,tooth:e,place:n}}function da(i){return JSON.stringify(Fr(i.filter(Yh)))}function Mg(i,t,e){let n=a=>t.points.find(({point:l})=>l===a).title,s=a=>i.some(({point:l})=>l===a),r=t.ways.filter(a=>a.points.some(s)),o=[];if(r.length>1)o.push(`Points of two ways of mounting are picked (${r.map(({name:a})=>a).join(", ")}): remove those of one.`);else{let a=r[0]??(e.transform?null:t.ways[0]),l=a?a.points.filter(c=>!s(c)):[];if(l.length){let c=r.length?"":` (or by ${t.ways[1].name})`;o.push(`Mounting by ${a.name}${c}: ${l.map(n).join("; ")}.`)}}return e.no_labels&&o.push("The teeth must be told first: pick a seed on every tooth of both casts, then press “Tell the teeth by seeds” (or give lists of labels)."),o.join(" ")}function Sg({point:i,tooth:t},e,n){let{title:s,arch:r}=n.points.find(l=>l.point===i),o=t===null?r:n.arch_of[t];return!o||o===e?"":`${t===null?`${s} lies on the ${o} cast`:`${t} is a tooth of the ${o} cast`}, and the ${e} cast was clicked. ${t===null?"Show":"Choose another tooth, or show"} the ${o} cast.`}function bg(i,t,e){let n=(a,l)=>i.some(c=>c.point===a&&c.tooth===l&&!c.proposed),s=t.points.find(({point:a})=>a===e.point);if(s?.several&&!s.goes_on)return e;if(s?.of_tooth){let a=t.teeth.indexOf(e.tooth),l=t.teeth.slice(a+1).find(c=>!n(e.point,c));return{point:e.point,tooth:l??e.tooth}}let o=t.ways.find(a=>a.points.includes(e.point))?.points.find(a=>!n(a,null));return o?{point:o,tooth:null}:e}function Zh(i){return i.toFixed(2).replace("-","−")}var mM=["x","y","z"],gM=1e4,je,wg,fa,Tg,Ag,Eg,Cg,pa=class{constructor(t){vt(this,je);this.calls=t,this.rows=new Map,this.say=p("p",{class:"pick-say",id:"pick-say",role:"status"}),this.missing=p("p",{class:"pick-missing",id:"pick-missing",role:"status"}),this.fault=p("p",{class:"wrong",id:"pick-fault",role:"alert"}),this.list=p("div",{role:"radiogroup","aria-label":"What to pick"}),this.others=p("ul",{class:"pick-others","aria-label":"Seeds and rest seats picked"});let e=(n,s,r,o=null)=>p("button",{type:"button",id:n,text:s,title:o,onclick:r});this.tell=e("tell-teeth","Tell the teeth by seeds",()=>t.tell(),"Part both casts among the teeth that have a seed"),this.propose=e("propose-seeds","Propose seeds",()=>t.propose(),"Look for teeth in the shape of the casts; you confirm them"),this.told=p("p",{class:"pick-told",id:"pick-told",role:"status"}),this.use=e("use-points","Use these points",()=>t.use()),this.facts=p("div",{class:"quiet pick-facts"}),this.element=p("div",{class:"pick-panel panel"},p("div",{class:"panel-head"},p("h2",{id:"picking-title",tabindex:"-1",text:"Points on your casts"}),e("picking-close","Back",()=>t.close(),"Back to the page; the points stay")),p("div",{class:"pick-body",tabindex:"-1"},this.say,this.told,this.list,this.others,p("details",{class:"pick-read"},p("summary",{text:"What was read"}),this.facts)),p("div",{class:"pick-foot"},this.missing,this.fault,p("div",{class:"pick-buttons"},this.propose,this.tell,this.use,e("save-case","Save case (ZIP)",()=>t.save("case"),"Case file, scans, labels and points, for the command line"),e("save-points","Save points (CSV)",()=>t.save("points")),e("picking-files","Other files…",()=>t.files()))))}make(t){this.about=t,this.rows.clear();let e=(r,o)=>[p("h3",{text:r}),...o.map(a=>x(this,je,wg).call(this,t.points.find(({point:l})=>l===a)))],[n,s]=t.ways;this.list.replaceChildren(...e("Mounting by mean values",n.points),...e("or by a located hinge axis",s.points),...e("Further points",t.points.filter(({point:r})=>!t.ways.some(o=>o.points.includes(r))).map(({point:r})=>r)))}update({points:t,target:e,missing:n,casts:s,fault:r,busy:o,seeded:a,proposal:l}){let c=this.about.points.find(({point:d})=>d===e.point),h=e.tooth===null?"":` ${e.tooth}`;nt(this.say,{textContent:`Click ${c.where}${h&&` (${h.trim()})`}. Drag turns the casts, the wheel enlarges.`}),nt(this.missing,{textContent:n?`Still missing for a run: ${n}`:"Everything for a run is there."}),this.missing.classList.toggle("whole",n===""),nt(this.fault,{textContent:r}),st(this.fault,r!==""),nt(this.use,{disabled:o!=="",textContent:o==="use"?"Making the case":"Use these points"}),st(this.tell,s.by_seeds),st(this.propose,s.by_seeds),nt(this.propose,{disabled:o!=="",textContent:o==="propose"?"Looking for teeth":"Propose seeds"}),nt(this.tell,{disabled:o!==""||!a,textContent:o==="tell"?"Telling the teeth":"Tell the teeth by seeds"}),nt(this.told,{textContent:l||s.teeth_told}),st(this.told,this.told.textContent!=="");for(let d of this.rows.values())x(this,je,Ag).call(this,d,t,e);x(this,je,Eg).call(this,t),s!==this.casts&&x(this,je,Cg).call(this,s),this.casts=s}};je=new WeakSet,wg=function(t){let{point:e,title:n,where:s,of_tooth:r}=t,o=Hn("pick",e),a=p("input",{type:"radio",name:"pick-target",id:o,onchange:()=>this.calls.target(x(this,je,fa).call(this,l))}),l={point:e,radio:a,typed:{},tooth:null};return r&&(l.tooth=p("select",{id:`${o}-tooth`,"aria-label":`${n}: tooth`,onchange:()=>this.calls.target(x(this,je,fa).call(this,l))},this.about.teeth.map(c=>p("option",{value:String(c),text:String(c)}))),l.tooth.value="16"),l.fields=mM.map(c=>p("input",{type:"text",inputmode:"decimal",id:`${o}-${c}`,"aria-label":`${n}, ${c}, mm`,autocomplete:"off",spellcheck:"false",placeholder:c,title:`${c}, mm`,onchange:()=>x(this,je,Tg).call(this,l)})),l.remove=p("button",{type:"button",class:"icon-only","aria-label":`Remove: ${n}`,title:"Remove",text:"×",onclick:()=>this.calls.remove(l.index)}),l.wrong=p("p",{class:"wrong"}),l.note=p("p",{class:"quiet pick-note"}),this.rows.set(e,l),p("div",{class:"pick-row"},p("label",{for:o,title:s},a,p("span",{text:n})),l.tooth,p("span",{class:"pick-xyz"},l.fields,p("span",{class:"unit",text:"mm"}),l.remove),l.wrong,l.note)},fa=function({point:t,tooth:e}){return{point:t,tooth:e?Number(e.value):null}},Tg=function(t){let e=t.fields.map(({value:r})=>r.trim());if(e.some(r=>r==="")){nt(t.wrong,{textContent:""});return}let n=e.map(r=>Lo(r,"mm")),s=n.findIndex(r=>!(Math.abs(r)<=gM));nt(t.wrong,{textContent:s<0?"":`“${e[s].slice(0,20)}” is not taken; a number from −10000 to 10000 mm is needed.`}),st(t.wrong,s>=0),t.fields.forEach((r,o)=>r.setAttribute("aria-invalid",String(o===s))),s<0&&this.calls.type(x(this,je,fa).call(this,t),n)},Ag=function(t,e,n){nt(t.radio,{checked:t.point===n.point}),t.tooth&&t.point===n.point&&nt(t.tooth,{value:String(n.tooth)});let{several:s}=this.about.points.find(({point:l})=>l===t.point),r=t.tooth?Number(t.tooth.value):null;t.index=s?n.point===t.point?n.index??-1:-1:e.findIndex(l=>l.point===t.point&&l.tooth===r);let o=e[t.index],a=JSON.stringify([r,o?.place??null]);a!==t.shown&&(t.fields.forEach((l,c)=>{l.value=o?Zh(o.place[c]):"",l.setAttribute("aria-invalid","false")}),nt(t.wrong,{textContent:""})),t.shown=a,nt(t.remove,{disabled:!o}),nt(t.note,{textContent:o?.note??(o?.proposed?"proposed: check it":"")}),st(t.note,t.note.textContent!==""),st(t.wrong,t.wrong.textContent!=="")},Eg=function(t){let e=t.map((s,r)=>({...s,index:r})).filter(({tooth:s})=>s!==null),n=JSON.stringify(e);n!==this.othersKey&&(this.othersKey=n,this.others.replaceChildren(...e.map(({point:s,tooth:r,place:o,index:a,note:l})=>{let{title:c}=this.about.points.find(d=>d.point===s),h=`${c} ${r}`;return p("li",{},p("span",{text:`${h}: ${o.map(Zh).join(", ")} mm${l?` (${l})`:""}`}),p("button",{type:"button",class:"small",text:"Move","aria-label":`Move: ${h}`,onclick:()=>this.calls.target({point:s,tooth:r,index:a})}),p("button",{type:"button",class:"small",text:"Remove","aria-label":`Remove: ${h}`,onclick:()=>this.calls.remove(a)}))})))},Cg=function(t){let e=t.oriented?[]:[p("p",{text:"How the casts lie was guessed from their shape: turn them by hand."})];this.facts.replaceChildren(...e,...t.files.flatMap(({side:n,triangles:s,kind:r,cleaning:o})=>[p("p",{text:`${n} cast, ${r}, ${s.toLocaleString("en")} triangles:`}),p("ul",{},o.map(a=>p("li",{text:a})))]))};var Rg=48*Math.PI/180,ma=[0,0,1],Kh={front:{right:[0,1,0],up:ma},right:{right:[1,0,0],up:ma},left:{right:[-1,0,0],up:ma},behind:{right:[0,-1,0],up:ma},"upper occlusal":{right:[0,1,0],up:[1,0,0]},"lower occlusal":{right:[0,1,0],up:[-1,0,0]},mouth:{right:[0,1,0],up:[-Math.sin(Rg),0,Math.cos(Rg)]}},Lg=Object.keys(Kh),Ig=.5,Pg=400,Is,ga,_a=class{constructor(){vt(this,Is);this.width=1,this.height=1,this.centre=[0,0,0],this.pxPerMm=5,this.seen=[1,1],this.directions=0,this.look("front")}get towards(){return mh(this.up,this.right)}look(t){let e=Kh[t];if(!e)throw new Error(`view ${t}: is none of ${Lg.join(", ")}`);this.right=[...e.right],this.up=[...e.up],this.name=t,this.turnedAway=!1,this.directions+=1}get title(){return this.turnedAway?`turned from ${this.name}`:this.name}kept(){let{name:t,turnedAway:e,right:n,up:s,centre:r,pxPerMm:o}=this;return{name:t,turnedAway:e,right:[...n],up:[...s],centre:[...r],pxPerMm:o}}restore(t){let e=o=>Array.isArray(o)&&o.length===3&&o.every(Number.isFinite);if(!(e(t?.right)&&e(t.up)&&e(t.centre)&&t.pxPerMm>0)||!Kh[t.name])return!1;let s=Sr(t.right),r=Xe(t.up,s,-Xn(t.up,s));return Xn(r,r)<1e-6?!1:(Object.assign(this,{name:t.name,turnedAway:!!t.turnedAway,right:s}),this.up=Sr(r),this.centre=[...t.centre],this.pxPerMm=Math.min(Math.max(t.pxPerMm,Ig),Pg),x(this,Is,ga).call(this),this.directions+=1,!0)}holds(t){let[e,n]=this.project(t);return e>=0&&n>=0&&e<=this.width&&n<=this.height}fit(t,e){let n=t.map(u=>Xn(u,this.right)),s=t.map(u=>Xn(u,this.up)),r=u=>Math.max(...u)-Math.min(...u),o=u=>.5*(Math.max(...u)+Math.min(...u)),a=Math.max(this.width-e.left-e.right,50),l=Math.max(this.height-e.top-e.bottom,50);this.pxPerMm=Math.min(a/r(n),l/r(s));let c=o(t.map(u=>Xn(u,this.towards))),h=o(n)+(e.right-e.left)/2/this.pxPerMm,d=o(s)+(e.top-e.bottom)/2/this.pxPerMm;this.centre=[0,1,2].map(u=>h*this.right[u]+d*this.up[u]+c*this.towards[u]),x(this,Is,ga).call(this)}showAsMuch(){let[t,e]=this.seen;this.pxPerMm=Math.min(this.width/t,this.height/e)}turn(t,e){let n=Math.PI/Math.max(300,Math.min(this.width,this.height)),s=this.up,r=gh(this.right,s,-t*n),o=gh(s,r,-e*n);r=Sr(r),this.up=Sr(Xe(o,r,-Xn(o,r))),this.right=r,this.turnedAway=!0,this.directions+=1}pan(t,e){this.centre=Xe(this.centre,this.right,-t/this.pxPerMm),this.centre=Xe(this.centre,this.up,e/this.pxPerMm)}zoom(t,e=this.width/2,n=this.height/2){let s=Math.min(Math.max(this.pxPerMm*t,Ig),Pg),r=1/this.pxPerMm-1/s;this.centre=Xe(this.centre,this.right,(e-this.width/2)*r),this.centre=Xe(this.centre,this.up,(this.height/2-n)*r),this.pxPerMm=s,x(this,Is,ga).call(this)}project(t){let e=[t[0]-this.centre[0],t[1]-this.centre[1],t[2]-this.centre[2]];return[this.width/2+Xn(e,this.right)*this.pxPerMm,this.height/2-Xn(e,this.up)*this.pxPerMm,Xn(e,this.towards)]}unproject(t,e){let n=Xe(this.centre,this.right,(t-this.width/2)/this.pxPerMm);return Xe(n,this.up,(this.height/2-e)/this.pxPerMm)}};Is=new WeakSet,ga=function(){this.seen=[this.width/this.pxPerMm,this.height/this.pxPerMm]};function Ng(i,t){let e=_M(i,t),n=new Int32Array(t).fill(-1),s=new Uint32Array(t),r=new Uint32Array(i.length),o=0,a=l=>(n[l]<0&&(n[l]=o,s[o]=l,o+=1),n[l]);e.forEach((l,c)=>{for(let h=0;h<3;h+=1)r[3*c+h]=a(i[3*l+h])});for(let l=0;l<t;l+=1)a(l);return{index:r,order:s}}function _M(i,t){let{starts:e,around:n}=yM(i,t),s=new Int32Array(t);for(let m=0;m<t;m+=1)s[m]=e[m+1]-e[m];let r=new Int32Array(t),o=new Uint8Array(i.length/3),a=new Uint32Array(i.length/3),l=new Uint32Array(i.length),c=0,h=0,d=17,u=0,f=0;for(;f>=0;){let m=c;for(let S=e[f];S<e[f+1];S+=1){let g=n[S];if(!o[g]){o[g]=1,a[h]=g,h+=1;for(let _=0;_<3;_+=1){let b=i[3*g+_];l[c]=b,c+=1,s[b]-=1,d-r[b]>16&&(r[b]=d,d+=1)}}}for(f=xM(l,m,c,s,r,d);f<0&&c>0;)c-=1,s[l[c]]>0&&(f=l[c]);for(;f<0&&u<t;)s[u]>0?f=u:u+=1}return a}function xM(i,t,e,n,s,r){let o=-1,a=-1;for(let l=t;l<e;l+=1){let c=i[l];if(n[c]===0)continue;let h=r-s[c],d=h+2*n[c]<=16?h:0;d>a&&(a=d,o=c)}return o}function yM(i,t){let e=new Uint32Array(t+1);for(let r of i)e[r+1]+=1;for(let r=0;r<t;r+=1)e[r+1]+=e[r];let n=e.slice(0,t),s=new Uint32Array(i.length);for(let r=0;r<i.length;r+=1)s[n[i[r]]]=Math.floor(r/3),n[i[r]]+=1;return{starts:e,around:s}}function Dg(i,t){if(t.length===0)return!1;let e=ya(i),n=0,s=0;for(let r=0;r<t.length;r+=3){for(let o=0;o<3;o+=1){let a=e[t[r+o]],l=e[t[r+(o+1)%3]];a<l?n=n+xa(a,l)|0:l<a&&(n=n-xa(l,a)|0)}s+=vM(i,3*t[r],3*t[r+1],3*t[r+2])}return n===0&&s>0}function ya(i){let t=new Int32Array(Float32Array.from(i,n=>n+0).buffer),e=new Int32Array(i.length/3);for(let n=0;n<e.length;n+=1){let s=xa(t[3*n],t[3*n+1]);e[n]=xa(s,t[3*n+2])}return e}function xa(i,t){let e=Math.imul(i^i>>>15,739982445)^Math.imul(t^t>>>13,695872825);return e=Math.imul(e^e>>>16,73244475),e^e>>>15}function vM(i,t,e,n){return i[t]*(i[e+1]*i[n+2]-i[e+2]*i[n+1])+i[t+1]*(i[e+2]*i[n]-i[e]*i[n+2])+i[t+2]*(i[e]*i[n+1]-i[e+1]*i[n])}function jh(i,t){let e=i.map(({positions:r,index:o})=>SM(r,o));kr(e,t,3);let n=e.map(bM),s=wM(i,n,t);return i.map((r,o)=>MM(n[o],s[o]))}function MM(i,t){let e=new Int8Array(4*t.length);for(let n=0;n<t.length;n+=1)e[4*n]=Math.round(127*i[3*n]),e[4*n+1]=Math.round(127*i[3*n+1]),e[4*n+2]=Math.round(127*i[3*n+2]),e[4*n+3]=Math.round(127*Math.min(1,Math.max(-1,.8*t[n])));return e}function SM(i,t){let e=i,n=new Float32Array(i.length);for(let s=0;s<t.length;s+=3){let r=3*t[s],o=3*t[s+1],a=3*t[s+2],l=e[o]-e[r],c=e[o+1]-e[r+1],h=e[o+2]-e[r+2],d=e[a]-e[r],u=e[a+1]-e[r+1],f=e[a+2]-e[r+2],m=c*f-h*u,S=h*d-l*f,g=l*u-c*d;for(let _ of[r,o,a])n[_]+=m,n[_+1]+=S,n[_+2]+=g}return n}function bM(i){for(let t=0;t<i.length;t+=3){let e=Math.hypot(i[t],i[t+1],i[t+2])||1;i[t]/=e,i[t+1]/=e,i[t+2]/=e}return i}function kr([i,t],e,n){for(let[s,r]of e)for(let o=0;o<n;o+=1){let a=i[n*s+o]+t[n*r+o];i[n*s+o]=a,t[n*r+o]=a}}function wM(i,t,e){let n=i.map((r,o)=>TM(r,t[o]));kr(n.map(({bent:r})=>r),e,1),kr(n.map(({lengths:r})=>r),e,1);let s=n.map(({bent:r,lengths:o})=>r.map((a,l)=>a/(o[l]||1)));for(let r=0;r<3;r+=1)s=Qh(s,i,e);return s}function TM({positions:i,index:t},e){let n=new Float32Array(i.length/3),s=new Float32Array(i.length/3);return Og(t,(r,o)=>{let a=3*r,l=3*o,c=i[l]-i[a],h=i[l+1]-i[a+1],d=i[l+2]-i[a+2],u=c*c+h*h+d*d;if(u<1e-8)return;let f=Math.sqrt(u),m=(e[a]-e[l])*c+(e[a+1]-e[l+1])*h+(e[a+2]-e[l+2])*d;n[r]+=m/f,n[o]+=m/f,s[r]+=f,s[o]+=f}),{bent:n,lengths:s}}function Qh(i,t,e){let n=i.map(r=>Float32Array.from(r)),s=i.map(r=>new Float32Array(r.length).fill(1));return t.forEach(({index:r},o)=>Og(r,(a,l)=>{n[o][a]+=i[o][l],n[o][l]+=i[o][a],s[o][a]+=1,s[o][l]+=1})),kr(n,e,1),kr(s,e,1),n.map((r,o)=>r.map((a,l)=>a/s[o][l]))}function Og(i,t){for(let e=0;e<i.length;e+=3)t(i[e],i[e+1]),t(i[e+1],i[e+2]),t(i[e+2],i[e])}var AM=3,EM=1.8;function Fg({positions:i},{positions:t}){let e=new Map;ya(t).forEach((s,r)=>e.set(s,r));let n=[];return ya(i).forEach((s,r)=>{let o=e.get(s);o!==void 0&&[0,1,2].every(a=>i[3*r+a]===t[3*o+a])&&n.push([r,o])}),n}function kg(i,t,e,n){if(t.length===0)return;let s=i.map(({tooth:o},a)=>new Float32Array(o.length).fill(a===0?1:0));for(let o=0;o<AM;o+=1)s=Qh(s,i,t);let r=o=>Math.min(1,Math.max(0,.5+EM*(o-.5)));Ug(i[0].colours,s[0].map(o=>1-r(o)),n),Ug(i[1].colours,s[1].map(r),e)}function Ug(i,t,e){t.forEach((n,s)=>{for(let r=0;r<3;r+=1){let o=4*s+r;i[o]=Math.round(i[o]+n*(e[r]-i[o]))}})}var CM=new Set(["upper tooth","lower tooth","replacement tooth","next tooth","doubtful"]),tu="before",nu=65535,RM=["upper","lower"];function zg(i,t,e,n){let s={header:i,buffers:t};for(let r of RM)s[r]=n&&IM(r,s,n)?n[r]:PM(i,t,r,e);return s}function IM(i,...t){let[e,n]=t.map(({header:r})=>r.parts.filter(o=>o.arch===i)),s=t.map(({header:r})=>JSON.stringify(r.places));return s[0]===s[1]&&e.length===n.length&&e.every((r,o)=>r.role===n[o].role&&["vertices","faces","tooth","place"].every(a=>{let[l,c]=[r,n[o]].map((h,d)=>t[d].buffers[h[a]]);return l===c||!!(l&&c&&l.length===c.length&&l.every((h,d)=>h===c[d]))}))}function PM(i,t,e,n){let s=i.parts.filter(h=>h.arch===e&&h.role!==tu),r=h=>CM.has(h.role)&&!h.around_teeth,o=[r,h=>!r(h)].map(h=>Gg(s.filter(h),t,n)),a=Fg(...o);jh(o,a).forEach((h,d)=>{o[d].shade=h}),kg(o,a,eu(n[`${e} tooth`]),eu(n.gum));let[l,c]=o;return{teeth:l,around:c,before:LM(i,t,e,n)}}function LM(i,t,e,n){let s=i.parts.filter(o=>o.arch===e&&o.role===tu);if(s.length===0)return null;let r=Gg(s,t,{...n,[tu]:n[`${e} tooth`]});return[r.shade]=jh([r],[]),r}function Gg(i,t,e){let n=m=>i.reduce((S,g)=>S+t[g[m]].length,0),s=new Float32Array(n("vertices")),r=new Uint32Array(n("faces")),o=new Uint8Array(4*s.length/3),a=new Uint8Array(s.length/3),l=new Uint8Array(s.length/3),c=0,h=0;for(let m of i){s.set(t[m.vertices],3*c);for(let _ of t[m.faces])r[h]=_+c,h+=1;m.tooth&&a.set(t[m.tooth],c),m.place&&l.set(t[m.place],c);let S=c+t[m.vertices].length/3,g=[...eu(e[m.role]),255];for(let _=c;_<S;_+=1)o.set(g,4*_);c=S}let{index:d,order:u}=Ng(r,c),f={positions:va(s,u,3),index:d};return{...f,order:u,colours:va(o,u,4),tooth:va(a,u,1),place:va(l,u,1),closed:Dg(f.positions,d)}}function va(i,t,e){let n=new i.constructor(i.length);for(let s=0;s<t.length;s+=1)for(let r=0;r<e;r+=1)n[e*s+r]=i[e*t[s]+r];return n}function eu(i){let t=Number.parseInt(i.slice(1),16);return[t>>16&255,t>>8&255,t&255]}function Vg({positions:i}){let t=[1/0,1/0,1/0],e=[-1/0,-1/0,-1/0];for(let n=0;n<i.length;n+=1){let s=n%3;i[n]<t[s]&&(t[s]=i[n]),i[n]>e[s]&&(e[s]=i[n])}return{low:t,high:e}}var Bg=5;function Hg({low:i,high:t}){let e=(n,s)=>n&1<<s?t[s]+Bg:i[s]-Bg;return Array.from({length:8},(n,s)=>[e(s,0),e(s,1),e(s,2)])}var NM={square:[[-.84,-.84],[.84,-.84],[.84,.84],[-.84,.84]],pentagon:[[0,-1.1],[1.05,-.34],[.65,.89],[-.65,.89],[-1.05,-.34]],diamond:[[0,-1.15],[1.15,0],[0,1.15],[-1.15,0]],triangle:[[0,-1.1],[1.05,.8],[-1.05,.8]],"triangle down":[[0,1.1],[1.05,-.8],[-1.05,-.8]],plus:[[-.38,-1.1],[.38,-1.1],[.38,-.38],[1.1,-.38],[1.1,.38],[.38,.38],[.38,1.1],[-.38,1.1],[-.38,.38],[-1.1,.38],[-1.1,-.38],[-.38,-.38]],cross:[[-1,-.55],[-.55,-1],[0,-.45],[.55,-1],[1,-.55],[.45,0],[1,.55],[.55,1],[0,.45],[-.55,1],[-1,.55],[-.45,0]]},DM={s:"square",D:"diamond",p:"pentagon","^":"triangle",v:"triangle down",P:"plus",x:"cross",X:"cross"},Wg="#1c1f24",Ma="#ffffff";function iu(i,t,e,n,s){let r=NM[DM[t]??t];if(i.beginPath(),!r){i.arc(e,n,s,0,2*Math.PI);return}r.forEach(([o,a],l)=>{l===0?i.moveTo(e+o*s,n+a*s):i.lineTo(e+o*s,n+a*s)}),i.closePath()}function Sa(i,{x:t,y:e,shape:n,colour:s,filled:r,size:o}){i.lineJoin="round",iu(i,n,t,e,o),i.strokeStyle=Ma,i.lineWidth=5,i.stroke(),i.strokeStyle=Wg,i.lineWidth=3,i.stroke(),i.fillStyle=r?s:Ma,i.fill(),r||(iu(i,n,t,e,o-1.6),i.strokeStyle=s,i.lineWidth=2.2,i.stroke())}function su(i,{x:t,y:e,shape:n,colour:s,size:r}){i.lineJoin="round",iu(i,n,t,e,.8*r),i.strokeStyle=Ma,i.lineWidth=3.4,i.globalAlpha=.75,i.stroke(),i.strokeStyle=s,i.lineWidth=1.6,i.globalAlpha=1,i.setLineDash([2.2,1.8]),i.stroke(),i.setLineDash([])}function Xg(i,t,e,n){for(let[s,r]of[[Ma,5.5],[Wg,2.5]])i.beginPath(),i.arc(t,e,n,0,2*Math.PI),i.strokeStyle=s,i.lineWidth=r,i.stroke()}var ba=18,Fi={contact:5.6,first:7.2,ring:17,dot:1.7},Br,ou,wa=class{constructor(t){vt(this,Br);this.moving=ru(t,"casts-words"),this.strips=[ru(t,"casts-frame"),ru(t,"casts-frame")],this.canvases=[this.moving,...this.strips].map(({canvas:e})=>e)}size(t,e,n){Object.assign(this,{width:t,height:e,ratio:n,shown:""}),x(this,Br,ou).call(this,this.moving,{y:0,h:e})}draw(t){this.moving.clearRect(0,0,this.width,this.height),Yg(this.moving,this.width,this.height,t,this.ratio);let e=JSON.stringify(t.frame);e!==this.shown&&(this.shown=e,Yo(this.width,this.height,t.frame).forEach((n,s)=>{x(this,Br,ou).call(this,this.strips[s],n),Mh(this.strips[s],this.width,this.height,t.frame)}))}};Br=new WeakSet,ou=function(t,{y:e,h:n}){let{canvas:s}=t,[r,o]=[Math.round(this.width*this.ratio),Math.round(n*this.ratio)];(s.width!==r||s.height!==o)&&Object.assign(s,{width:r,height:o}),Object.assign(s.style,{top:`${e}px`,width:"100%",height:`${n}px`}),t.setTransform(this.ratio,0,0,this.ratio,0,-e*this.ratio)};function ru(i,t){let e=document.createElement("canvas");return e.className=t,e.setAttribute("aria-hidden","true"),Object.assign(e.style,{position:"absolute",left:"0",pointerEvents:"none"}),i.append(e),e.getContext("2d")}function qg(i,t,e,n,s){Yg(i,t,e,n,s),Mh(i,t,e,n.frame)}function Yg(i,t,e,n,s){n.axis&&UM(i,t,n.axis),kM(i,n.dots),BM(i,n.marks),n.ring&&Xg(i,n.ring.x,n.ring.y,Fi.ring),zM(i,t,n.pins);let r=[...Yo(t,e,n.frame)];for(let{x:o,y:a,hidden:l}of n.marks)l||r.push(FM(o,a,7));r.push(...zp(i,{width:t,height:e},n.forces,r)),GM(i,{width:t,height:e},n,r,s)}function UM(i,t,[e,n]){i.beginPath(),i.moveTo(...e),i.lineTo(...n),i.strokeStyle=Oi,i.lineWidth=1,i.setLineDash([7,3,2,3]),i.stroke(),i.setLineDash([]);for(let[o,a]of[e,n])i.beginPath(),i.arc(o,a,5,0,2*Math.PI),i.fillStyle=In,i.fill(),i.strokeStyle=Rn,i.lineWidth=1.5,i.stroke(),i.fillStyle=Rn,i.fillRect(o-1,a-1,2,2);let s=Math.min(Math.max((e[0]+n[0])/2,55),t-55),r=Math.max(e[1],n[1])+15;Ee(i,"condyle centres",s,r,{colour:Oi,align:"center"})}var FM=(i,t,e)=>({x:i-e,y:t-e,w:2*e,h:2*e});function kM(i,t){for(let e of[!0,!1]){i.globalAlpha=e?.45:1;for(let n of t)n.hidden===e&&(i.beginPath(),i.arc(n.x,n.y,Fi.dot,0,2*Math.PI),i.fillStyle=n.colour,i.fill())}i.globalAlpha=1}function BM(i,t){for(let e of t.filter(n=>n.hidden))su(i,{...e,size:e.first?Fi.first:Fi.contact});for(let e of t.filter(n=>!n.hidden&&!n.first))Sa(i,{...e,size:Fi.contact});for(let e of t.filter(n=>n.first))e.hidden||Sa(i,{...e,size:Fi.first}),Jg(i,e.x,e.y)}function zM(i,t,e){for(let n of[...e].sort((s,r)=>Number(r.hidden)-Number(s.hidden))){n.hidden?su(i,{...n,size:Fi.first}):Sa(i,{...n,filled:!0,size:Fi.contact}),n.chosen&&Jg(i,n.x,n.y);let s={bold:n.chosen,colour:n.hidden?Oi:Rn},r=n.chosen?22:12,o=n.x+r+Pn(i,n.text,s)>t-8;Ee(i,n.text,n.x+(o?-r:r),n.y,{...s,align:o?"right":"left"})}}function Jg(i,t,e){i.lineCap="round";for(let[n,s]of[[In,4.4],[Rn,2]]){i.beginPath();for(let[r,o]of[[1,0],[-1,0],[0,1],[0,-1]])i.moveTo(t+12*r,e+12*o),i.lineTo(t+18*r,e+18*o);i.strokeStyle=n,i.lineWidth=s,i.stroke()}i.lineCap="butt"}function GM(i,t,{labels:e,numberGround:n},s,r){let o=e.map(({x:l,y:c,text:h,strong:d,picked:u,changed:f,far:m})=>({x:l,y:c,w:8*h.length+8,h:ba,weight:(u?1e3:f?500:d?100:0)-m/100})),a=Ko(o,s,t);e.forEach((l,c)=>{let h=a[c];if(!h)return;let d=VM(l,h.w,n,r),[u,f]=[h.x,h.y].map(m=>Math.round(m*r)/r);i.drawImage(d,u,f,d.width/r,d.height/r)})}var $g=new Map;function VM({text:i,strong:t,picked:e,changed:n},s,r,o){let a=`${i} ${t} ${e} ${r} ${o}`,l=$g.get(a);if(l)return l;let c=document.createElement("canvas");c.width=Math.ceil(s*o),c.height=Math.ceil(ba*o);let h=c.getContext("2d");h.scale(o,o);let d=e||n;(t||d)&&(h.beginPath(),h.roundRect(1,1,s-2,ba-2,4),h.fillStyle=t?r:In,h.fill(),h.strokeStyle=Rn,h.lineWidth=2,n&&!e&&h.setLineDash([3,2]),d&&h.stroke());let u=t||d,f={bold:u,align:"center",rim:u?0:3.5};return Ee(h,i,s/2,ba/2+.5,f),$g.set(a,c),c}var _0=0,Du=1,x0=2;var ao=1,y0=2,tr=3,hi=0,ln=1,Bn=2,hs=0,er=1,Ou=2,Uu=3,Fu=4,v0=5;var us=100,M0=101,S0=102,b0=103,w0=104,T0=200,A0=201,E0=202,C0=203,ku=204,Bu=205,R0=206,I0=207,P0=208,L0=209,N0=210,D0=211,O0=212,U0=213,F0=214,qa=0,Ya=1,Ja=2,Wi=3,Za=4,Ka=5,ja=6,Qa=7,zu=0,k0=1,B0=2,ui=0,Gu=1,Vu=2,Hu=3,Wu=4,Xu=5,$u=6,qu=7;var Yu=300,ds=301,nr=302,wl=303,Tl=304,tl=1e3,oi=1001,el=1002,ze=1003,z0=1004;var lo=1005;var Ge=1006,Al=1007;var Ci=1008;var Sn=1009,Ju=1010,Zu=1011,ir=1012,El=1013,Kn=1014,jn=1015,Qn=1016,Cl=1017,Rl=1018,fs=1020,Ku=35902,ju=35899,Qu=1021,td=1022,bn=1023,Ai=1026,Ri=1027,ed=1028,Il=1029,Zi=1030,Pl=1031;var Ll=1033,co=33776,ho=33777,uo=33778,fo=33779,Nl=35840,Dl=35841,Ol=35842,Ul=35843,Fl=36196,kl=37492,Bl=37496,zl=37488,Gl=37489,po=37490,Vl=37491,Hl=37808,Wl=37809,Xl=37810,$l=37811,ql=37812,Yl=37813,Jl=37814,Zl=37815,Kl=37816,jl=37817,Ql=37818,tc=37819,ec=37820,nc=37821,ic=36492,sc=36494,rc=36495,oc=36283,ac=36284,mo=36285,lc=36286;var Xr=2300,nl=2301,Xa=2302,Cu=2303,Ru=2400,Iu=2401,Pu=2402;var G0=3200;var nd=0,V0=1,Ii="",xn="srgb",$r="srgb-linear",qr="linear",se="srgb";var $a=7680;var H0=519,W0=512,X0=513,$0=514,id=515,q0=516,Y0=517,sd=518,rd=519,J0=35044;var go="300 es",On=2e3,Yr=2001;function HM(i){for(let t=i.length-1;t>=0;--t)if(i[t]>=65535)return!0;return!1}function WM(i){return ArrayBuffer.isView(i)&&!(i instanceof DataView)}function Jr(i){return document.createElementNS("http://www.w3.org/1999/xhtml",i)}function Z0(){let i=Jr("canvas");return i.style.display="block",i}var Zg={},Xs=null;function od(...i){let t="THREE."+i.shift();Xs?Xs("log",t,...i):console.log(t,...i)}function K0(i){let t=i[0];if(typeof t=="string"&&t.startsWith("TSL:")){let e=i[1];e&&e.isStackTrace?i[0]+=" "+e.getLocation():i[1]='Stack trace not available. Enable "THREE.Node.captureStackTrace" to capture stack traces.'}return i}function Ut(...i){i=K0(i);let t="THREE."+i.shift();if(Xs)Xs("warn",t,...i);else{let e=i[0];e&&e.isStackTrace?console.warn(e.getError(t)):console.warn(t,...i)}}function Ft(...i){i=K0(i);let t="THREE."+i.shift();if(Xs)Xs("error",t,...i);else{let e=i[0];e&&e.isStackTrace?console.error(e.getError(t)):console.error(t,...i)}}function Wr(...i){let t=i.join(" ");t in Zg||(Zg[t]=!0,Ut(...i))}function j0(i,t,e){return new Promise(function(n,s){function r(){switch(i.clientWaitSync(t,i.SYNC_FLUSH_COMMANDS_BIT,0)){case i.WAIT_FAILED:s();break;case i.TIMEOUT_EXPIRED:setTimeout(r,e);break;default:n()}}setTimeout(r,e)})}var Q0={[qa]:qa,[Ja]:ja,[Za]:Za,[Wi]:Ka,[Ya]:Ya,[ja]:Ja,[Qa]:Qa,[Ka]:Wi},ai=class{addEventListener(t,e){this._listeners===void 0&&(this._listeners={});let n=this._listeners;n[t]===void 0&&(n[t]=[]),n[t].indexOf(e)===-1&&n[t].push(e)}hasEventListener(t,e){let n=this._listeners;return n===void 0?!1:n[t]!==void 0&&n[t].indexOf(e)!==-1}removeEventListener(t,e){let n=this._listeners;if(n===void 0)return;let s=n[t];if(s!==void 0){let r=s.indexOf(e);r!==-1&&s.splice(r,1)}}dispatchEvent(t){let e=this._listeners;if(e===void 0)return;let n=e[t.type];if(n!==void 0){t.target=this;let s=n.slice(0);for(let r=0,o=s.length;r<o;r++)s[r].call(this,t);t.target=null}}},Qe=["00","01","02","03","04","05","06","07","08","09","0a","0b","0c","0d","0e","0f","10","11","12","13","14","15","16","17","18","19","1a","1b","1c","1d","1e","1f","20","21","22","23","24","25","26","27","28","29","2a","2b","2c","2d","2e","2f","30","31","32","33","34","35","36","37","38","39","3a","3b","3c","3d","3e","3f","40","41","42","43","44","45","46","47","48","49","4a","4b","4c","4d","4e","4f","50","51","52","53","54","55","56","57","58","59","5a","5b","5c","5d","5e","5f","60","61","62","63","64","65","66","67","68","69","6a","6b","6c","6d","6e","6f","70","71","72","73","74","75","76","77","78","79","7a","7b","7c","7d","7e","7f","80","81","82","83","84","85","86","87","88","89","8a","8b","8c","8d","8e","8f","90","91","92","93","94","95","96","97","98","99","9a","9b","9c","9d","9e","9f","a0","a1","a2","a3","a4","a5","a6","a7","a8","a9","aa","ab","ac","ad","ae","af","b0","b1","b2","b3","b4","b5","b6","b7","b8","b9","ba","bb","bc","bd","be","bf","c0","c1","c2","c3","c4","c5","c6","c7","c8","c9","ca","cb","cc","cd","ce","cf","d0","d1","d2","d3","d4","d5","d6","d7","d8","d9","da","db","dc","dd","de","df","e0","e1","e2","e3","e4","e5","e6","e7","e8","e9","ea","eb","ec","ed","ee","ef","f0","f1","f2","f3","f4","f5","f6","f7","f8","f9","fa","fb","fc","fd","fe","ff"];var au=Math.PI/180,il=180/Math.PI;function _o(){let i=Math.random()*4294967295|0,t=Math.random()*4294967295|0,e=Math.random()*4294967295|0,n=Math.random()*4294967295|0;return(Qe[i&255]+Qe[i>>8&255]+Qe[i>>16&255]+Qe[i>>24&255]+"-"+Qe[t&255]+Qe[t>>8&255]+"-"+Qe[t>>16&15|64]+Qe[t>>24&255]+"-"+Qe[e&63|128]+Qe[e>>8&255]+"-"+Qe[e>>16&255]+Qe[e>>24&255]+Qe[n&255]+Qe[n>>8&255]+Qe[n>>16&255]+Qe[n>>24&255]).toLowerCase()}function jt(i,t,e){return Math.max(t,Math.min(e,i))}function XM(i,t){return(i%t+t)%t}function lu(i,t,e){return(1-e)*i+e*t}function t_(i){return Math.pow(2,Math.floor(Math.log(i)/Math.LN2))}function ad(i){switch(i.constructor){case Uint32Array:return 4294967295;case Uint16Array:return 65535;case Uint8Array:case Uint8ClampedArray:return 255;case Int32Array:return 2147483647;case Int16Array:return 32767;case Int8Array:return 127;default:return}}function $M(i,t){if(t.constructor===Float32Array)return i;let e=ad(t);if(e===void 0)throw new Error("THREE.MathUtils: Invalid component type.");return Math.max(i/e,-1)}function qM(i,t){if(t.constructor===Float32Array)return i;let e=ad(t);if(e===void 0)throw new Error("THREE.MathUtils: Invalid component type.");return Math.round(i*e)}var dd=class dd{constructor(t=0,e=0){this.x=t,this.y=e}get width(){return this.x}set width(t){this.x=t}get height(){return this.y}set height(t){this.y=t}set(t,e){return this.x=t,this.y=e,this}setScalar(t){return this.x=t,this.y=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;default:throw new Error("THREE.Vector2: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;default:throw new Error("THREE.Vector2: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y)}copy(t){return this.x=t.x,this.y=t.y,this}add(t){return this.x+=t.x,this.y+=t.y,this}addScalar(t){return this.x+=t,this.y+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this}subScalar(t){return this.x-=t,this.y-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this}multiply(t){return this.x*=t.x,this.y*=t.y,this}multiplyScalar(t){return this.x*=t,this.y*=t,this}divide(t){return this.x/=t.x,this.y/=t.y,this}divideScalar(t){return this.multiplyScalar(1/t)}applyMatrix3(t){let e=this.x,n=this.y,s=t.elements;return this.x=s[0]*e+s[3]*n+s[6],this.y=s[1]*e+s[4]*n+s[7],this}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this}clamp(t,e){return this.x=jt(this.x,t.x,e.x),this.y=jt(this.y,t.y,e.y),this}clampScalar(t,e){return this.x=jt(this.x,t,e),this.y=jt(this.y,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(jt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this}negate(){return this.x=-this.x,this.y=-this.y,this}dot(t){return this.x*t.x+this.y*t.y}cross(t){return this.x*t.y-this.y*t.x}lengthSq(){return this.x*this.x+this.y*this.y}length(){return Math.sqrt(this.x*this.x+this.y*this.y)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)}normalize(){return this.divideScalar(this.length()||1)}angle(){return Math.atan2(-this.y,-this.x)+Math.PI}angleTo(t){let e=Math.sqrt(this.lengthSq()*t.lengthSq());if(e===0)return Math.PI/2;let n=this.dot(t)/e;return Math.acos(jt(n,-1,1))}distanceTo(t){return Math.sqrt(this.distanceToSquared(t))}distanceToSquared(t){let e=this.x-t.x,n=this.y-t.y;return e*e+n*n}manhattanDistanceTo(t){return Math.abs(this.x-t.x)+Math.abs(this.y-t.y)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this}equals(t){return t.x===this.x&&t.y===this.y}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this}rotateAround(t,e){let n=Math.cos(e),s=Math.sin(e),r=this.x-t.x,o=this.y-t.y;return this.x=r*n-o*s+t.x,this.y=r*s+o*n+t.y,this}random(){return this.x=Math.random(),this.y=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y}};dd.prototype.isVector2=!0;var ne=dd,li=class{constructor(t=0,e=0,n=0,s=1){this.isQuaternion=!0,this._x=t,this._y=e,this._z=n,this._w=s}static slerpFlat(t,e,n,s,r,o,a){let l=n[s+0],c=n[s+1],h=n[s+2],d=n[s+3],u=r[o+0],f=r[o+1],m=r[o+2],S=r[o+3];if(d!==S||l!==u||c!==f||h!==m){let g=l*u+c*f+h*m+d*S;g<0&&(u=-u,f=-f,m=-m,S=-S,g=-g);let _=1-a;if(g<.9995){let b=Math.acos(g),I=Math.sin(b);_=Math.sin(_*b)/I,a=Math.sin(a*b)/I,l=l*_+u*a,c=c*_+f*a,h=h*_+m*a,d=d*_+S*a}else{l=l*_+u*a,c=c*_+f*a,h=h*_+m*a,d=d*_+S*a;let b=1/Math.sqrt(l*l+c*c+h*h+d*d);l*=b,c*=b,h*=b,d*=b}}t[e]=l,t[e+1]=c,t[e+2]=h,t[e+3]=d}static multiplyQuaternionsFlat(t,e,n,s,r,o){let a=n[s],l=n[s+1],c=n[s+2],h=n[s+3],d=r[o],u=r[o+1],f=r[o+2],m=r[o+3];return t[e]=a*m+h*d+l*f-c*u,t[e+1]=l*m+h*u+c*d-a*f,t[e+2]=c*m+h*f+a*u-l*d,t[e+3]=h*m-a*d-l*u-c*f,t}get x(){return this._x}set x(t){this._x=t,this._onChangeCallback()}get y(){return this._y}set y(t){this._y=t,this._onChangeCallback()}get z(){return this._z}set z(t){this._z=t,this._onChangeCallback()}get w(){return this._w}set w(t){this._w=t,this._onChangeCallback()}set(t,e,n,s){return this._x=t,this._y=e,this._z=n,this._w=s,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._w)}copy(t){return this._x=t.x,this._y=t.y,this._z=t.z,this._w=t.w,this._onChangeCallback(),this}setFromEuler(t,e=!0){let n=t._x,s=t._y,r=t._z,o=t._order,a=Math.cos,l=Math.sin,c=a(n/2),h=a(s/2),d=a(r/2),u=l(n/2),f=l(s/2),m=l(r/2);switch(o){case"XYZ":this._x=u*h*d+c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d-u*f*m;break;case"YXZ":this._x=u*h*d+c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d+u*f*m;break;case"ZXY":this._x=u*h*d-c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d-u*f*m;break;case"ZYX":this._x=u*h*d-c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d+u*f*m;break;case"YZX":this._x=u*h*d+c*f*m,this._y=c*f*d+u*h*m,this._z=c*h*m-u*f*d,this._w=c*h*d-u*f*m;break;case"XZY":this._x=u*h*d-c*f*m,this._y=c*f*d-u*h*m,this._z=c*h*m+u*f*d,this._w=c*h*d+u*f*m;break;default:Ut("Quaternion: .setFromEuler() encountered an unknown order: "+o)}return e===!0&&this._onChangeCallback(),this}setFromAxisAngle(t,e){let n=e/2,s=Math.sin(n);return this._x=t.x*s,this._y=t.y*s,this._z=t.z*s,this._w=Math.cos(n),this._onChangeCallback(),this}setFromRotationMatrix(t){let e=t.elements,n=e[0],s=e[4],r=e[8],o=e[1],a=e[5],l=e[9],c=e[2],h=e[6],d=e[10],u=n+a+d;if(u>0){let f=.5/Math.sqrt(u+1);this._w=.25/f,this._x=(h-l)*f,this._y=(r-c)*f,this._z=(o-s)*f}else if(n>a&&n>d){let f=2*Math.sqrt(1+n-a-d);this._w=(h-l)/f,this._x=.25*f,this._y=(s+o)/f,this._z=(r+c)/f}else if(a>d){let f=2*Math.sqrt(1+a-n-d);this._w=(r-c)/f,this._x=(s+o)/f,this._y=.25*f,this._z=(l+h)/f}else{let f=2*Math.sqrt(1+d-n-a);this._w=(o-s)/f,this._x=(r+c)/f,this._y=(l+h)/f,this._z=.25*f}return this._onChangeCallback(),this}setFromUnitVectors(t,e){let n=t.dot(e)+1;return n<1e-8?(n=0,Math.abs(t.x)>Math.abs(t.z)?(this._x=-t.y,this._y=t.x,this._z=0,this._w=n):(this._x=0,this._y=-t.z,this._z=t.y,this._w=n)):(this._x=t.y*e.z-t.z*e.y,this._y=t.z*e.x-t.x*e.z,this._z=t.x*e.y-t.y*e.x,this._w=n),this.normalize()}angleTo(t){return 2*Math.acos(Math.abs(jt(this.dot(t),-1,1)))}rotateTowards(t,e){let n=this.angleTo(t);if(n===0)return this;let s=Math.min(1,e/n);return this.slerp(t,s),this}identity(){return this.set(0,0,0,1)}invert(){return this.conjugate()}conjugate(){return this._x*=-1,this._y*=-1,this._z*=-1,this._onChangeCallback(),this}dot(t){return this._x*t._x+this._y*t._y+this._z*t._z+this._w*t._w}lengthSq(){return this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w}length(){return Math.sqrt(this._x*this._x+this._y*this._y+this._z*this._z+this._w*this._w)}normalize(){let t=this.length();return t===0?(this._x=0,this._y=0,this._z=0,this._w=1):(t=1/t,this._x=this._x*t,this._y=this._y*t,this._z=this._z*t,this._w=this._w*t),this._onChangeCallback(),this}multiply(t){return this.multiplyQuaternions(this,t)}premultiply(t){return this.multiplyQuaternions(t,this)}multiplyQuaternions(t,e){let n=t._x,s=t._y,r=t._z,o=t._w,a=e._x,l=e._y,c=e._z,h=e._w;return this._x=n*h+o*a+s*c-r*l,this._y=s*h+o*l+r*a-n*c,this._z=r*h+o*c+n*l-s*a,this._w=o*h-n*a-s*l-r*c,this._onChangeCallback(),this}slerp(t,e){let n=t._x,s=t._y,r=t._z,o=t._w,a=this.dot(t);a<0&&(n=-n,s=-s,r=-r,o=-o,a=-a);let l=1-e;if(a<.9995){let c=Math.acos(a),h=Math.sin(c);l=Math.sin(l*c)/h,e=Math.sin(e*c)/h,this._x=this._x*l+n*e,this._y=this._y*l+s*e,this._z=this._z*l+r*e,this._w=this._w*l+o*e,this._onChangeCallback()}else this._x=this._x*l+n*e,this._y=this._y*l+s*e,this._z=this._z*l+r*e,this._w=this._w*l+o*e,this.normalize();return this}slerpQuaternions(t,e,n){return this.copy(t).slerp(e,n)}random(){let t=2*Math.PI*Math.random(),e=2*Math.PI*Math.random(),n=Math.random(),s=Math.sqrt(1-n),r=Math.sqrt(n);return this.set(s*Math.sin(t),s*Math.cos(t),r*Math.sin(e),r*Math.cos(e))}equals(t){return t._x===this._x&&t._y===this._y&&t._z===this._z&&t._w===this._w}fromArray(t,e=0){return this._x=t[e],this._y=t[e+1],this._z=t[e+2],this._w=t[e+3],this._onChangeCallback(),this}toArray(t=[],e=0){return t[e]=this._x,t[e+1]=this._y,t[e+2]=this._z,t[e+3]=this._w,t}fromBufferAttribute(t,e){return this._x=t.getX(e),this._y=t.getY(e),this._z=t.getZ(e),this._w=t.getW(e),this._onChangeCallback(),this}toJSON(){return this.toArray()}_onChange(t){return this._onChangeCallback=t,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._w}},fd=class fd{constructor(t=0,e=0,n=0){this.x=t,this.y=e,this.z=n}set(t,e,n){return n===void 0&&(n=this.z),this.x=t,this.y=e,this.z=n,this}setScalar(t){return this.x=t,this.y=t,this.z=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setZ(t){return this.z=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;case 2:this.z=e;break;default:throw new Error("THREE.Vector3: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;case 2:return this.z;default:throw new Error("THREE.Vector3: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y,this.z)}copy(t){return this.x=t.x,this.y=t.y,this.z=t.z,this}add(t){return this.x+=t.x,this.y+=t.y,this.z+=t.z,this}addScalar(t){return this.x+=t,this.y+=t,this.z+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this.z=t.z+e.z,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this.z+=t.z*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this.z-=t.z,this}subScalar(t){return this.x-=t,this.y-=t,this.z-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this.z=t.z-e.z,this}multiply(t){return this.x*=t.x,this.y*=t.y,this.z*=t.z,this}multiplyScalar(t){return this.x*=t,this.y*=t,this.z*=t,this}multiplyVectors(t,e){return this.x=t.x*e.x,this.y=t.y*e.y,this.z=t.z*e.z,this}applyEuler(t){return this.applyQuaternion(Kg.setFromEuler(t))}applyAxisAngle(t,e){return this.applyQuaternion(Kg.setFromAxisAngle(t,e))}applyMatrix3(t){let e=this.x,n=this.y,s=this.z,r=t.elements;return this.x=r[0]*e+r[3]*n+r[6]*s,this.y=r[1]*e+r[4]*n+r[7]*s,this.z=r[2]*e+r[5]*n+r[8]*s,this}applyNormalMatrix(t){return this.applyMatrix3(t).normalize()}applyMatrix4(t){let e=this.x,n=this.y,s=this.z,r=t.elements,o=1/(r[3]*e+r[7]*n+r[11]*s+r[15]);return this.x=(r[0]*e+r[4]*n+r[8]*s+r[12])*o,this.y=(r[1]*e+r[5]*n+r[9]*s+r[13])*o,this.z=(r[2]*e+r[6]*n+r[10]*s+r[14])*o,this}applyQuaternion(t){let e=this.x,n=this.y,s=this.z,r=t.x,o=t.y,a=t.z,l=t.w,c=2*(o*s-a*n),h=2*(a*e-r*s),d=2*(r*n-o*e);return this.x=e+l*c+o*d-a*h,this.y=n+l*h+a*c-r*d,this.z=s+l*d+r*h-o*c,this}project(t){return this.applyMatrix4(t.matrixWorldInverse).applyMatrix4(t.projectionMatrix)}unproject(t){return this.applyMatrix4(t.projectionMatrixInverse).applyMatrix4(t.matrixWorld)}transformDirection(t){let e=this.x,n=this.y,s=this.z,r=t.elements;return this.x=r[0]*e+r[4]*n+r[8]*s,this.y=r[1]*e+r[5]*n+r[9]*s,this.z=r[2]*e+r[6]*n+r[10]*s,this.normalize()}divide(t){return this.x/=t.x,this.y/=t.y,this.z/=t.z,this}divideScalar(t){return this.multiplyScalar(1/t)}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this.z=Math.min(this.z,t.z),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this.z=Math.max(this.z,t.z),this}clamp(t,e){return this.x=jt(this.x,t.x,e.x),this.y=jt(this.y,t.y,e.y),this.z=jt(this.z,t.z,e.z),this}clampScalar(t,e){return this.x=jt(this.x,t,e),this.y=jt(this.y,t,e),this.z=jt(this.z,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(jt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this}dot(t){return this.x*t.x+this.y*t.y+this.z*t.z}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)}normalize(){return this.divideScalar(this.length()||1)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this.z+=(t.z-this.z)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this.z=t.z+(e.z-t.z)*n,this}cross(t){return this.crossVectors(this,t)}crossVectors(t,e){let n=t.x,s=t.y,r=t.z,o=e.x,a=e.y,l=e.z;return this.x=s*l-r*a,this.y=r*o-n*l,this.z=n*a-s*o,this}projectOnVector(t){let e=t.lengthSq();if(e===0)return this.set(0,0,0);let n=t.dot(this)/e;return this.copy(t).multiplyScalar(n)}projectOnPlane(t){return cu.copy(this).projectOnVector(t),this.sub(cu)}reflect(t){return this.sub(cu.copy(t).multiplyScalar(2*this.dot(t)))}angleTo(t){let e=Math.sqrt(this.lengthSq()*t.lengthSq());if(e===0)return Math.PI/2;let n=this.dot(t)/e;return Math.acos(jt(n,-1,1))}distanceTo(t){return Math.sqrt(this.distanceToSquared(t))}distanceToSquared(t){let e=this.x-t.x,n=this.y-t.y,s=this.z-t.z;return e*e+n*n+s*s}manhattanDistanceTo(t){return Math.abs(this.x-t.x)+Math.abs(this.y-t.y)+Math.abs(this.z-t.z)}setFromSpherical(t){return this.setFromSphericalCoords(t.radius,t.phi,t.theta)}setFromSphericalCoords(t,e,n){let s=Math.sin(e)*t;return this.x=s*Math.sin(n),this.y=Math.cos(e)*t,this.z=s*Math.cos(n),this}setFromCylindrical(t){return this.setFromCylindricalCoords(t.radius,t.theta,t.y)}setFromCylindricalCoords(t,e,n){return this.x=t*Math.sin(e),this.y=n,this.z=t*Math.cos(e),this}setFromMatrixPosition(t){let e=t.elements;return this.x=e[12],this.y=e[13],this.z=e[14],this}setFromMatrixScale(t){let e=this.setFromMatrixColumn(t,0).length(),n=this.setFromMatrixColumn(t,1).length(),s=this.setFromMatrixColumn(t,2).length();return this.x=e,this.y=n,this.z=s,this}setFromMatrixColumn(t,e){return this.fromArray(t.elements,e*4)}setFromMatrix3Column(t,e){return this.fromArray(t.elements,e*3)}setFromEuler(t){return this.x=t._x,this.y=t._y,this.z=t._z,this}setFromColor(t){return this.x=t.r,this.y=t.g,this.z=t.b,this}equals(t){return t.x===this.x&&t.y===this.y&&t.z===this.z}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this.z=t[e+2],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t[e+2]=this.z,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this.z=t.getZ(e),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this}randomDirection(){let t=Math.random()*Math.PI*2,e=Math.random()*2-1,n=Math.sqrt(1-e*e);return this.x=n*Math.cos(t),this.y=e,this.z=n*Math.sin(t),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z}};fd.prototype.isVector3=!0;var V=fd,cu=new V,Kg=new li,pd=class pd{constructor(t,e,n,s,r,o,a,l,c){this.elements=[1,0,0,0,1,0,0,0,1],t!==void 0&&this.set(t,e,n,s,r,o,a,l,c)}set(t,e,n,s,r,o,a,l,c){let h=this.elements;return h[0]=t,h[1]=s,h[2]=a,h[3]=e,h[4]=r,h[5]=l,h[6]=n,h[7]=o,h[8]=c,this}identity(){return this.set(1,0,0,0,1,0,0,0,1),this}copy(t){let e=this.elements,n=t.elements;return e[0]=n[0],e[1]=n[1],e[2]=n[2],e[3]=n[3],e[4]=n[4],e[5]=n[5],e[6]=n[6],e[7]=n[7],e[8]=n[8],this}extractBasis(t,e,n){return t.setFromMatrix3Column(this,0),e.setFromMatrix3Column(this,1),n.setFromMatrix3Column(this,2),this}setFromMatrix4(t){let e=t.elements;return this.set(e[0],e[4],e[8],e[1],e[5],e[9],e[2],e[6],e[10]),this}multiply(t){return this.multiplyMatrices(this,t)}premultiply(t){return this.multiplyMatrices(t,this)}multiplyMatrices(t,e){let n=t.elements,s=e.elements,r=this.elements,o=n[0],a=n[3],l=n[6],c=n[1],h=n[4],d=n[7],u=n[2],f=n[5],m=n[8],S=s[0],g=s[3],_=s[6],b=s[1],I=s[4],A=s[7],C=s[2],E=s[5],y=s[8];return r[0]=o*S+a*b+l*C,r[3]=o*g+a*I+l*E,r[6]=o*_+a*A+l*y,r[1]=c*S+h*b+d*C,r[4]=c*g+h*I+d*E,r[7]=c*_+h*A+d*y,r[2]=u*S+f*b+m*C,r[5]=u*g+f*I+m*E,r[8]=u*_+f*A+m*y,this}multiplyScalar(t){let e=this.elements;return e[0]*=t,e[3]*=t,e[6]*=t,e[1]*=t,e[4]*=t,e[7]*=t,e[2]*=t,e[5]*=t,e[8]*=t,this}determinant(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8];return e*o*h-e*a*c-n*r*h+n*a*l+s*r*c-s*o*l}invert(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8],d=h*o-a*c,u=a*l-h*r,f=c*r-o*l,m=e*d+n*u+s*f;if(m===0)return this.set(0,0,0,0,0,0,0,0,0);let S=1/m;return t[0]=d*S,t[1]=(s*c-h*n)*S,t[2]=(a*n-s*o)*S,t[3]=u*S,t[4]=(h*e-s*l)*S,t[5]=(s*r-a*e)*S,t[6]=f*S,t[7]=(n*l-c*e)*S,t[8]=(o*e-n*r)*S,this}transpose(){let t,e=this.elements;return t=e[1],e[1]=e[3],e[3]=t,t=e[2],e[2]=e[6],e[6]=t,t=e[5],e[5]=e[7],e[7]=t,this}getNormalMatrix(t){return this.setFromMatrix4(t).invert().transpose()}transposeIntoArray(t){let e=this.elements;return t[0]=e[0],t[1]=e[3],t[2]=e[6],t[3]=e[1],t[4]=e[4],t[5]=e[7],t[6]=e[2],t[7]=e[5],t[8]=e[8],this}setUvTransform(t,e,n,s,r,o,a){let l=Math.cos(r),c=Math.sin(r);return this.set(n*l,n*c,-n*(l*o+c*a)+o+t,-s*c,s*l,-s*(-c*o+l*a)+a+e,0,0,1),this}scale(t,e){return Wr("Matrix3: .scale() is deprecated. Use .makeScale() instead."),this.premultiply(hu.makeScale(t,e)),this}rotate(t){return Wr("Matrix3: .rotate() is deprecated. Use .makeRotation() instead."),this.premultiply(hu.makeRotation(-t)),this}translate(t,e){return Wr("Matrix3: .translate() is deprecated. Use .makeTranslation() instead."),this.premultiply(hu.makeTranslation(t,e)),this}makeTranslation(t,e){return t.isVector2?this.set(1,0,t.x,0,1,t.y,0,0,1):this.set(1,0,t,0,1,e,0,0,1),this}makeRotation(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,-n,0,n,e,0,0,0,1),this}makeScale(t,e){return this.set(t,0,0,0,e,0,0,0,1),this}equals(t){let e=this.elements,n=t.elements;for(let s=0;s<9;s++)if(e[s]!==n[s])return!1;return!0}fromArray(t,e=0){for(let n=0;n<9;n++)this.elements[n]=t[n+e];return this}toArray(t=[],e=0){let n=this.elements;return t[e]=n[0],t[e+1]=n[1],t[e+2]=n[2],t[e+3]=n[3],t[e+4]=n[4],t[e+5]=n[5],t[e+6]=n[6],t[e+7]=n[7],t[e+8]=n[8],t}clone(){return new this.constructor().fromArray(this.elements)}};pd.prototype.isMatrix3=!0;var Bt=pd,hu=new Bt,jg=new Bt().set(.4123908,.3575843,.1804808,.212639,.7151687,.0721923,.0193308,.1191948,.9505322),Qg=new Bt().set(3.2409699,-1.5373832,-.4986108,-.9692436,1.8759675,.0415551,.0556301,-.203977,1.0569715);function YM(){let i={enabled:!0,workingColorSpace:$r,spaces:{},convert:function(s,r,o){return this.enabled===!1||r===o||!r||!o||(this.spaces[r].transfer===se&&(s.r=Ti(s.r),s.g=Ti(s.g),s.b=Ti(s.b)),this.spaces[r].primaries!==this.spaces[o].primaries&&(s.applyMatrix3(this.spaces[r].toXYZ),s.applyMatrix3(this.spaces[o].fromXYZ)),this.spaces[o].transfer===se&&(s.r=Ws(s.r),s.g=Ws(s.g),s.b=Ws(s.b))),s},workingToColorSpace:function(s,r){return this.convert(s,this.workingColorSpace,r)},colorSpaceToWorking:function(s,r){return this.convert(s,r,this.workingColorSpace)},getPrimaries:function(s){return this.spaces[s].primaries},getTransfer:function(s){return s===Ii?qr:this.spaces[s].transfer},getToneMappingMode:function(s){return this.spaces[s].outputColorSpaceConfig.toneMappingMode||"standard"},getLuminanceCoefficients:function(s,r=this.workingColorSpace){return s.fromArray(this.spaces[r].luminanceCoefficients)},define:function(s){Object.assign(this.spaces,s)},_getMatrix:function(s,r,o){return s.copy(this.spaces[o].fromXYZ).multiply(this.spaces[r].toXYZ)},_getDrawingBufferColorSpace:function(s){return this.spaces[s].outputColorSpaceConfig.drawingBufferColorSpace},_getUnpackColorSpace:function(s=this.workingColorSpace){return this.spaces[s].workingColorSpaceConfig.unpackColorSpace}},t=[.64,.33,.3,.6,.15,.06],e=[.2126,.7152,.0722],n=[.3127,.329];return i.define({[$r]:{primaries:t,whitePoint:n,transfer:qr,toXYZ:jg,fromXYZ:Qg,luminanceCoefficients:e,workingColorSpaceConfig:{unpackColorSpace:xn},outputColorSpaceConfig:{drawingBufferColorSpace:xn}},[xn]:{primaries:t,whitePoint:n,transfer:se,toXYZ:jg,fromXYZ:Qg,luminanceCoefficients:e,outputColorSpaceConfig:{drawingBufferColorSpace:xn}}}),i}var Kt=YM();function Ti(i){return i<.04045?i*.0773993808:Math.pow(i*.9478672986+.0521327014,2.4)}function Ws(i){return i<.0031308?i*12.92:1.055*Math.pow(i,.41666)-.055}var Ps,sl=class{static getDataURL(t,e="image/png"){if(/^data:/i.test(t.src)||typeof HTMLCanvasElement>"u")return t.src;let n;if(t instanceof HTMLCanvasElement)n=t;else{Ps===void 0&&(Ps=Jr("canvas")),Ps.width=t.width,Ps.height=t.height;let s=Ps.getContext("2d");t instanceof ImageData?s.putImageData(t,0,0):s.drawImage(t,0,0,t.width,t.height),n=Ps}return n.toDataURL(e)}static sRGBToLinear(t){if(typeof HTMLImageElement<"u"&&t instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&t instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&t instanceof ImageBitmap){let e=Jr("canvas");e.width=t.width,e.height=t.height;let n=e.getContext("2d");n.drawImage(t,0,0,t.width,t.height);let s=n.getImageData(0,0,t.width,t.height),r=s.data;for(let o=0;o<r.length;o++)r[o]=Ti(r[o]/255)*255;return n.putImageData(s,0,0),e}else if(t.data){let e=t.data.slice(0);for(let n=0;n<e.length;n++)e instanceof Uint8Array||e instanceof Uint8ClampedArray?e[n]=Math.floor(Ti(e[n]/255)*255):e[n]=Ti(e[n]);return{data:e,width:t.width,height:t.height}}else return Ut("ImageUtils.sRGBToLinear(): Unsupported image type. No color space conversion applied."),t}},JM=0,$s=class{constructor(t=null){this.isTextureSource=!0,Object.defineProperty(this,"id",{value:JM++}),this.uuid=_o(),this.data=t,this.dataReady=!0,this.version=0}getSize(t){let e=this.data;return typeof HTMLVideoElement<"u"&&e instanceof HTMLVideoElement?t.set(e.videoWidth,e.videoHeight,0):typeof VideoFrame<"u"&&e instanceof VideoFrame?t.set(e.displayWidth,e.displayHeight,0):e!==null?t.set(e.width||0,e.height||0,e.depth||0):t.set(0,0,0),t}set needsUpdate(t){t===!0&&this.version++}toJSON(t){let e=t===void 0||typeof t=="string";if(!e&&t.images[this.uuid]!==void 0)return t.images[this.uuid];let n={uuid:this.uuid,url:""},s=this.data;if(s!==null){let r;if(Array.isArray(s)){r=[];for(let o=0,a=s.length;o<a;o++)s[o].isDataTexture?r.push(uu(s[o].image)):r.push(uu(s[o]))}else r=uu(s);n.url=r}return e||(t.images[this.uuid]=n),n}};function uu(i){return typeof HTMLImageElement<"u"&&i instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&i instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&i instanceof ImageBitmap?sl.getDataURL(i):i.data?{data:Array.from(i.data),width:i.width,height:i.height,type:i.data.constructor.name}:(Ut("Texture: Unable to serialize Texture."),{})}var ZM=0,du=new V,dn=class i extends ai{constructor(t=i.DEFAULT_IMAGE,e=i.DEFAULT_MAPPING,n=oi,s=oi,r=Ge,o=Ci,a=bn,l=Sn,c=i.DEFAULT_ANISOTROPY,h=Ii){super(),this.isTexture=!0,Object.defineProperty(this,"id",{value:ZM++}),this.uuid=_o(),this.name="",this.source=new $s(t),this.mipmaps=[],this.mapping=e,this.channel=0,this.wrapS=n,this.wrapT=s,this.magFilter=r,this.minFilter=o,this.anisotropy=c,this.format=a,this.internalFormat=null,this.type=l,this.offset=new ne(0,0),this.repeat=new ne(1,1),this.center=new ne(0,0),this.rotation=0,this.matrixAutoUpdate=!0,this.matrix=new Bt,this.generateMipmaps=!0,this.mipmapsAutoUpdate=!0,this.premultiplyAlpha=!1,this.flipY=!0,this.unpackAlignment=4,this.colorSpace=h,this.userData={},this.updateRanges=[],this.version=0,this.onUpdate=null,this.renderTarget=null,this.isRenderTargetTexture=!1,this.isArrayTexture=!!(t&&t.depth&&t.depth>1),this.pmremVersion=0,this.isPMREMTexture=!1,this.normalized=!1}get width(){return this.source.getSize(du).x}get height(){return this.source.getSize(du).y}get depth(){return this.source.getSize(du).z}get image(){return this.source.data}set image(t){this.source.data=t}updateMatrix(){this.matrix.setUvTransform(this.offset.x,this.offset.y,this.repeat.x,this.repeat.y,this.rotation,this.center.x,this.center.y)}addUpdateRange(t,e){this.updateRanges.push({start:t,count:e})}clearUpdateRanges(){this.updateRanges.length=0}clone(){return new this.constructor().copy(this)}copy(t){return this.name=t.name,this.source=t.source,this.mipmaps=t.mipmaps.slice(0),this.mapping=t.mapping,this.channel=t.channel,this.wrapS=t.wrapS,this.wrapT=t.wrapT,this.magFilter=t.magFilter,this.minFilter=t.minFilter,this.anisotropy=t.anisotropy,this.format=t.format,this.internalFormat=t.internalFormat,this.type=t.type,this.normalized=t.normalized,this.offset.copy(t.offset),this.repeat.copy(t.repeat),this.center.copy(t.center),this.rotation=t.rotation,this.matrixAutoUpdate=t.matrixAutoUpdate,this.matrix.copy(t.matrix),this.generateMipmaps=t.generateMipmaps,this.mipmapsAutoUpdate=t.mipmapsAutoUpdate,this.premultiplyAlpha=t.premultiplyAlpha,this.flipY=t.flipY,this.unpackAlignment=t.unpackAlignment,this.colorSpace=t.colorSpace,this.renderTarget=t.renderTarget,this.isRenderTargetTexture=t.isRenderTargetTexture,this.isPMREMTexture=t.isPMREMTexture,this.isArrayTexture=t.isArrayTexture,this.userData=JSON.parse(JSON.stringify(t.userData)),this.needsUpdate=!0,this}setValues(t){for(let e in t){let n=t[e];if(n===void 0){Ut(`Texture.setValues(): parameter '${e}' has value of undefined.`);continue}let s=this[e];if(s===void 0){Ut(`Texture.setValues(): property '${e}' does not exist.`);continue}s&&n&&s.isVector2&&n.isVector2||s&&n&&s.isVector3&&n.isVector3||s&&n&&s.isMatrix3&&n.isMatrix3?s.copy(n):this[e]=n}}toJSON(t){let e=t===void 0||typeof t=="string";if(!e&&t.textures[this.uuid]!==void 0)return t.textures[this.uuid];let n={metadata:{version:4.7,type:"Texture",generator:"Texture.toJSON"},uuid:this.uuid,name:this.name,image:this.source.toJSON(t).uuid,mapping:this.mapping,channel:this.channel,repeat:[this.repeat.x,this.repeat.y],offset:[this.offset.x,this.offset.y],center:[this.center.x,this.center.y],rotation:this.rotation,wrap:[this.wrapS,this.wrapT],format:this.format,internalFormat:this.internalFormat,type:this.type,normalized:this.normalized,colorSpace:this.colorSpace,minFilter:this.minFilter,magFilter:this.magFilter,anisotropy:this.anisotropy,flipY:this.flipY,generateMipmaps:this.generateMipmaps,mipmapsAutoUpdate:this.mipmapsAutoUpdate,premultiplyAlpha:this.premultiplyAlpha,unpackAlignment:this.unpackAlignment};return Object.keys(this.userData).length>0&&(n.userData=this.userData),e||(t.textures[this.uuid]=n),n}dispose(){this.dispatchEvent({type:"dispose"})}transformUv(t){if(this.mapping!==Yu)return t;if(t.applyMatrix3(this.matrix),t.x<0||t.x>1)switch(this.wrapS){case tl:t.x=t.x-Math.floor(t.x);break;case oi:t.x=t.x<0?0:1;break;case el:Math.abs(Math.floor(t.x)%2)===1?t.x=Math.ceil(t.x)-t.x:t.x=t.x-Math.floor(t.x);break}if(t.y<0||t.y>1)switch(this.wrapT){case tl:t.y=t.y-Math.floor(t.y);break;case oi:t.y=t.y<0?0:1;break;case el:Math.abs(Math.floor(t.y)%2)===1?t.y=Math.ceil(t.y)-t.y:t.y=t.y-Math.floor(t.y);break}return this.flipY&&(t.y=1-t.y),t}set needsUpdate(t){t===!0&&(this.version++,this.source.needsUpdate=!0)}set needsPMREMUpdate(t){t===!0&&this.pmremVersion++}};dn.DEFAULT_IMAGE=null;dn.DEFAULT_MAPPING=Yu;dn.DEFAULT_ANISOTROPY=1;var md=class md{constructor(t=0,e=0,n=0,s=1){this.x=t,this.y=e,this.z=n,this.w=s}get width(){return this.z}set width(t){this.z=t}get height(){return this.w}set height(t){this.w=t}set(t,e,n,s){return this.x=t,this.y=e,this.z=n,this.w=s,this}setScalar(t){return this.x=t,this.y=t,this.z=t,this.w=t,this}setX(t){return this.x=t,this}setY(t){return this.y=t,this}setZ(t){return this.z=t,this}setW(t){return this.w=t,this}setComponent(t,e){switch(t){case 0:this.x=e;break;case 1:this.y=e;break;case 2:this.z=e;break;case 3:this.w=e;break;default:throw new Error("THREE.Vector4: index is out of range: "+t)}return this}getComponent(t){switch(t){case 0:return this.x;case 1:return this.y;case 2:return this.z;case 3:return this.w;default:throw new Error("THREE.Vector4: index is out of range: "+t)}}clone(){return new this.constructor(this.x,this.y,this.z,this.w)}copy(t){return this.x=t.x,this.y=t.y,this.z=t.z,this.w=t.w!==void 0?t.w:1,this}add(t){return this.x+=t.x,this.y+=t.y,this.z+=t.z,this.w+=t.w,this}addScalar(t){return this.x+=t,this.y+=t,this.z+=t,this.w+=t,this}addVectors(t,e){return this.x=t.x+e.x,this.y=t.y+e.y,this.z=t.z+e.z,this.w=t.w+e.w,this}addScaledVector(t,e){return this.x+=t.x*e,this.y+=t.y*e,this.z+=t.z*e,this.w+=t.w*e,this}sub(t){return this.x-=t.x,this.y-=t.y,this.z-=t.z,this.w-=t.w,this}subScalar(t){return this.x-=t,this.y-=t,this.z-=t,this.w-=t,this}subVectors(t,e){return this.x=t.x-e.x,this.y=t.y-e.y,this.z=t.z-e.z,this.w=t.w-e.w,this}multiply(t){return this.x*=t.x,this.y*=t.y,this.z*=t.z,this.w*=t.w,this}multiplyScalar(t){return this.x*=t,this.y*=t,this.z*=t,this.w*=t,this}applyMatrix4(t){let e=this.x,n=this.y,s=this.z,r=this.w,o=t.elements;return this.x=o[0]*e+o[4]*n+o[8]*s+o[12]*r,this.y=o[1]*e+o[5]*n+o[9]*s+o[13]*r,this.z=o[2]*e+o[6]*n+o[10]*s+o[14]*r,this.w=o[3]*e+o[7]*n+o[11]*s+o[15]*r,this}divide(t){return this.x/=t.x,this.y/=t.y,this.z/=t.z,this.w/=t.w,this}divideScalar(t){return this.multiplyScalar(1/t)}setAxisAngleFromQuaternion(t){this.w=2*Math.acos(t.w);let e=Math.sqrt(1-t.w*t.w);return e<1e-4?(this.x=1,this.y=0,this.z=0):(this.x=t.x/e,this.y=t.y/e,this.z=t.z/e),this}setAxisAngleFromRotationMatrix(t){let e,n,s,r,l=t.elements,c=l[0],h=l[4],d=l[8],u=l[1],f=l[5],m=l[9],S=l[2],g=l[6],_=l[10];if(Math.abs(h-u)<.01&&Math.abs(d-S)<.01&&Math.abs(m-g)<.01){if(Math.abs(h+u)<.1&&Math.abs(d+S)<.1&&Math.abs(m+g)<.1&&Math.abs(c+f+_-3)<.1)return this.set(1,0,0,0),this;e=Math.PI;let I=(c+1)/2,A=(f+1)/2,C=(_+1)/2,E=(h+u)/4,y=(d+S)/4,T=(m+g)/4;return I>A&&I>C?I<.01?(n=0,s=.707106781,r=.707106781):(n=Math.sqrt(I),s=E/n,r=y/n):A>C?A<.01?(n=.707106781,s=0,r=.707106781):(s=Math.sqrt(A),n=E/s,r=T/s):C<.01?(n=.707106781,s=.707106781,r=0):(r=Math.sqrt(C),n=y/r,s=T/r),this.set(n,s,r,e),this}let b=Math.sqrt((g-m)*(g-m)+(d-S)*(d-S)+(u-h)*(u-h));return Math.abs(b)<.001&&(b=1),this.x=(g-m)/b,this.y=(d-S)/b,this.z=(u-h)/b,this.w=Math.acos((c+f+_-1)/2),this}setFromMatrixPosition(t){let e=t.elements;return this.x=e[12],this.y=e[13],this.z=e[14],this.w=e[15],this}min(t){return this.x=Math.min(this.x,t.x),this.y=Math.min(this.y,t.y),this.z=Math.min(this.z,t.z),this.w=Math.min(this.w,t.w),this}max(t){return this.x=Math.max(this.x,t.x),this.y=Math.max(this.y,t.y),this.z=Math.max(this.z,t.z),this.w=Math.max(this.w,t.w),this}clamp(t,e){return this.x=jt(this.x,t.x,e.x),this.y=jt(this.y,t.y,e.y),this.z=jt(this.z,t.z,e.z),this.w=jt(this.w,t.w,e.w),this}clampScalar(t,e){return this.x=jt(this.x,t,e),this.y=jt(this.y,t,e),this.z=jt(this.z,t,e),this.w=jt(this.w,t,e),this}clampLength(t,e){let n=this.length();return this.divideScalar(n||1).multiplyScalar(jt(n,t,e))}floor(){return this.x=Math.floor(this.x),this.y=Math.floor(this.y),this.z=Math.floor(this.z),this.w=Math.floor(this.w),this}ceil(){return this.x=Math.ceil(this.x),this.y=Math.ceil(this.y),this.z=Math.ceil(this.z),this.w=Math.ceil(this.w),this}round(){return this.x=Math.round(this.x),this.y=Math.round(this.y),this.z=Math.round(this.z),this.w=Math.round(this.w),this}roundToZero(){return this.x=Math.trunc(this.x),this.y=Math.trunc(this.y),this.z=Math.trunc(this.z),this.w=Math.trunc(this.w),this}negate(){return this.x=-this.x,this.y=-this.y,this.z=-this.z,this.w=-this.w,this}dot(t){return this.x*t.x+this.y*t.y+this.z*t.z+this.w*t.w}lengthSq(){return this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w}length(){return Math.sqrt(this.x*this.x+this.y*this.y+this.z*this.z+this.w*this.w)}manhattanLength(){return Math.abs(this.x)+Math.abs(this.y)+Math.abs(this.z)+Math.abs(this.w)}normalize(){return this.divideScalar(this.length()||1)}setLength(t){return this.normalize().multiplyScalar(t)}lerp(t,e){return this.x+=(t.x-this.x)*e,this.y+=(t.y-this.y)*e,this.z+=(t.z-this.z)*e,this.w+=(t.w-this.w)*e,this}lerpVectors(t,e,n){return this.x=t.x+(e.x-t.x)*n,this.y=t.y+(e.y-t.y)*n,this.z=t.z+(e.z-t.z)*n,this.w=t.w+(e.w-t.w)*n,this}equals(t){return t.x===this.x&&t.y===this.y&&t.z===this.z&&t.w===this.w}fromArray(t,e=0){return this.x=t[e],this.y=t[e+1],this.z=t[e+2],this.w=t[e+3],this}toArray(t=[],e=0){return t[e]=this.x,t[e+1]=this.y,t[e+2]=this.z,t[e+3]=this.w,t}fromBufferAttribute(t,e){return this.x=t.getX(e),this.y=t.getY(e),this.z=t.getZ(e),this.w=t.getW(e),this}random(){return this.x=Math.random(),this.y=Math.random(),this.z=Math.random(),this.w=Math.random(),this}*[Symbol.iterator](){yield this.x,yield this.y,yield this.z,yield this.w}};md.prototype.isVector4=!0;var xe=md,rl=class extends ai{constructor(t=1,e=1,n={}){super(),n=Object.assign({generateMipmaps:!1,internalFormat:null,minFilter:Ge,depthBuffer:!0,stencilBuffer:!1,resolveColorBuffer:!0,resolveDepthBuffer:!0,resolveStencilBuffer:!0,storeMultisampledColorBuffer:!0,storeMultisampledDepthBuffer:!0,storeMultisampledStencilBuffer:!0,depthTexture:null,samples:0,count:1,depth:1,multiview:!1,useArrayDepthTexture:!1},n),this.isRenderTarget=!0,this.width=t,this.height=e,this.depth=n.depth,this.scissor=new xe(0,0,t,e),this.scissorTest=!1,this.viewport=new xe(0,0,t,e),this.textures=[];let s=n.count;for(let r=0;r<s;r++)this.textures[r]=new dn({width:t,height:e,depth:n.depth}),this.textures[r].isRenderTargetTexture=!0,this.textures[r].renderTarget=this;this._setTextureOptions(n),this.depthBuffer=n.depthBuffer,this.stencilBuffer=n.stencilBuffer,this.resolveColorBuffer=n.resolveColorBuffer,this.resolveDepthBuffer=n.resolveDepthBuffer,this.resolveStencilBuffer=n.resolveStencilBuffer,this.storeMultisampledColorBuffer=n.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=n.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=n.storeMultisampledStencilBuffer,this._depthTexture=null,this.depthTexture=n.depthTexture,this.samples=n.samples,this.multiview=n.multiview,this.useArrayDepthTexture=n.useArrayDepthTexture}_setTextureOptions(t={}){let e={minFilter:Ge,generateMipmaps:!1,flipY:!1,internalFormat:null};t.mapping!==void 0&&(e.mapping=t.mapping),t.wrapS!==void 0&&(e.wrapS=t.wrapS),t.wrapT!==void 0&&(e.wrapT=t.wrapT),t.wrapR!==void 0&&(e.wrapR=t.wrapR),t.magFilter!==void 0&&(e.magFilter=t.magFilter),t.minFilter!==void 0&&(e.minFilter=t.minFilter),t.format!==void 0&&(e.format=t.format),t.type!==void 0&&(e.type=t.type),t.anisotropy!==void 0&&(e.anisotropy=t.anisotropy),t.colorSpace!==void 0&&(e.colorSpace=t.colorSpace),t.flipY!==void 0&&(e.flipY=t.flipY),t.generateMipmaps!==void 0&&(e.generateMipmaps=t.generateMipmaps),t.mipmapsAutoUpdate!==void 0&&(e.mipmapsAutoUpdate=t.mipmapsAutoUpdate),t.internalFormat!==void 0&&(e.internalFormat=t.internalFormat);for(let n=0;n<this.textures.length;n++)this.textures[n].setValues(e)}get texture(){return this.textures[0]}set texture(t){this.textures[0]=t}set depthTexture(t){this._depthTexture!==null&&this._depthTexture.renderTarget===this&&(this._depthTexture.renderTarget=null),t!==null&&t.renderTarget===null&&(t.renderTarget=this),this._depthTexture=t}get depthTexture(){return this._depthTexture}setSize(t,e,n=1){if(this.width!==t||this.height!==e||this.depth!==n){this.width=t,this.height=e,this.depth=n;for(let s=0,r=this.textures.length;s<r;s++)this.textures[s].image.width=t,this.textures[s].image.height=e,this.textures[s].image.depth=n,this.textures[s].isData3DTexture!==!0&&(this.textures[s].isArrayTexture=this.textures[s].image.depth>1);this.dispose()}this.viewport.set(0,0,t,e),this.scissor.set(0,0,t,e)}clone(){return new this.constructor().copy(this)}copy(t){this.width=t.width,this.height=t.height,this.depth=t.depth,this.scissor.copy(t.scissor),this.scissorTest=t.scissorTest,this.viewport.copy(t.viewport),this.textures.length=0;for(let e=0,n=t.textures.length;e<n;e++){this.textures[e]=t.textures[e].clone(),this.textures[e].isRenderTargetTexture=!0,this.textures[e].renderTarget=this;let s=Object.assign({},t.textures[e].image);this.textures[e].source=new $s(s)}if(this.depthBuffer=t.depthBuffer,this.stencilBuffer=t.stencilBuffer,this.resolveColorBuffer=t.resolveColorBuffer,this.resolveDepthBuffer=t.resolveDepthBuffer,this.resolveStencilBuffer=t.resolveStencilBuffer,this.storeMultisampledColorBuffer=t.storeMultisampledColorBuffer,this.storeMultisampledDepthBuffer=t.storeMultisampledDepthBuffer,this.storeMultisampledStencilBuffer=t.storeMultisampledStencilBuffer,t.depthTexture!==null)if(t.depthTexture.renderTarget===t){let e=t.depthTexture.clone();e.renderTarget=null,this.depthTexture=e}else this.depthTexture=t.depthTexture;else this.depthTexture=null;return this.samples=t.samples,this.multiview=t.multiview,this.useArrayDepthTexture=t.useArrayDepthTexture,this}dispose(){this.dispatchEvent({type:"dispose"})}},vn=class extends rl{constructor(t=1,e=1,n={}){super(t,e,n),this.isWebGLRenderTarget=!0}},Zr=class extends dn{constructor(t=null,e=1,n=1,s=1){super(null),this.isDataArrayTexture=!0,this.image={data:t,width:e,height:n,depth:s},this.magFilter=ze,this.minFilter=ze,this.wrapR=oi,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1,this.layerUpdates=new Set}copy(t){return super.copy(t),this.wrapR=t.wrapR,this}addLayerUpdate(t){this.layerUpdates.add(t)}clearLayerUpdates(){this.layerUpdates.clear()}};var ol=class extends dn{constructor(t=null,e=1,n=1,s=1){super(null),this.isData3DTexture=!0,this.image={data:t,width:e,height:n,depth:s},this.magFilter=ze,this.minFilter=ze,this.wrapR=oi,this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}copy(t){return super.copy(t),this.wrapR=t.wrapR,this}};var bl=class bl{constructor(t,e,n,s,r,o,a,l,c,h,d,u,f,m,S,g){this.elements=[1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1],t!==void 0&&this.set(t,e,n,s,r,o,a,l,c,h,d,u,f,m,S,g)}set(t,e,n,s,r,o,a,l,c,h,d,u,f,m,S,g){let _=this.elements;return _[0]=t,_[4]=e,_[8]=n,_[12]=s,_[1]=r,_[5]=o,_[9]=a,_[13]=l,_[2]=c,_[6]=h,_[10]=d,_[14]=u,_[3]=f,_[7]=m,_[11]=S,_[15]=g,this}identity(){return this.set(1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1),this}clone(){return new bl().fromArray(this.elements)}copy(t){let e=this.elements,n=t.elements;return e[0]=n[0],e[1]=n[1],e[2]=n[2],e[3]=n[3],e[4]=n[4],e[5]=n[5],e[6]=n[6],e[7]=n[7],e[8]=n[8],e[9]=n[9],e[10]=n[10],e[11]=n[11],e[12]=n[12],e[13]=n[13],e[14]=n[14],e[15]=n[15],this}copyPosition(t){let e=this.elements,n=t.elements;return e[12]=n[12],e[13]=n[13],e[14]=n[14],this}setFromMatrix3(t){let e=t.elements;return this.set(e[0],e[3],e[6],0,e[1],e[4],e[7],0,e[2],e[5],e[8],0,0,0,0,1),this}extractBasis(t,e,n){return this.determinantAffine()===0?(t.set(1,0,0),e.set(0,1,0),n.set(0,0,1),this):(t.setFromMatrixColumn(this,0),e.setFromMatrixColumn(this,1),n.setFromMatrixColumn(this,2),this)}makeBasis(t,e,n){return this.set(t.x,e.x,n.x,0,t.y,e.y,n.y,0,t.z,e.z,n.z,0,0,0,0,1),this}extractRotation(t){if(t.determinantAffine()===0)return this.identity();let e=this.elements,n=t.elements,s=1/Ls.setFromMatrixColumn(t,0).length(),r=1/Ls.setFromMatrixColumn(t,1).length(),o=1/Ls.setFromMatrixColumn(t,2).length();return e[0]=n[0]*s,e[1]=n[1]*s,e[2]=n[2]*s,e[3]=0,e[4]=n[4]*r,e[5]=n[5]*r,e[6]=n[6]*r,e[7]=0,e[8]=n[8]*o,e[9]=n[9]*o,e[10]=n[10]*o,e[11]=0,e[12]=0,e[13]=0,e[14]=0,e[15]=1,this}makeRotationFromEuler(t){let e=this.elements,n=t.x,s=t.y,r=t.z,o=Math.cos(n),a=Math.sin(n),l=Math.cos(s),c=Math.sin(s),h=Math.cos(r),d=Math.sin(r);if(t.order==="XYZ"){let u=o*h,f=o*d,m=a*h,S=a*d;e[0]=l*h,e[4]=-l*d,e[8]=c,e[1]=f+m*c,e[5]=u-S*c,e[9]=-a*l,e[2]=S-u*c,e[6]=m+f*c,e[10]=o*l}else if(t.order==="YXZ"){let u=l*h,f=l*d,m=c*h,S=c*d;e[0]=u+S*a,e[4]=m*a-f,e[8]=o*c,e[1]=o*d,e[5]=o*h,e[9]=-a,e[2]=f*a-m,e[6]=S+u*a,e[10]=o*l}else if(t.order==="ZXY"){let u=l*h,f=l*d,m=c*h,S=c*d;e[0]=u-S*a,e[4]=-o*d,e[8]=m+f*a,e[1]=f+m*a,e[5]=o*h,e[9]=S-u*a,e[2]=-o*c,e[6]=a,e[10]=o*l}else if(t.order==="ZYX"){let u=o*h,f=o*d,m=a*h,S=a*d;e[0]=l*h,e[4]=m*c-f,e[8]=u*c+S,e[1]=l*d,e[5]=S*c+u,e[9]=f*c-m,e[2]=-c,e[6]=a*l,e[10]=o*l}else if(t.order==="YZX"){let u=o*l,f=o*c,m=a*l,S=a*c;e[0]=l*h,e[4]=S-u*d,e[8]=m*d+f,e[1]=d,e[5]=o*h,e[9]=-a*h,e[2]=-c*h,e[6]=f*d+m,e[10]=u-S*d}else if(t.order==="XZY"){let u=o*l,f=o*c,m=a*l,S=a*c;e[0]=l*h,e[4]=-d,e[8]=c*h,e[1]=u*d+S,e[5]=o*h,e[9]=f*d-m,e[2]=m*d-f,e[6]=a*h,e[10]=S*d+u}return e[3]=0,e[7]=0,e[11]=0,e[12]=0,e[13]=0,e[14]=0,e[15]=1,this}makeRotationFromQuaternion(t){return this.compose(KM,t,jM)}lookAt(t,e,n){let s=this.elements;return gn.subVectors(t,e),gn.lengthSq()===0&&(gn.z=1),gn.normalize(),ki.crossVectors(n,gn),ki.lengthSq()===0&&(Math.abs(n.z)===1?gn.x+=1e-4:gn.z+=1e-4,gn.normalize(),ki.crossVectors(n,gn)),ki.normalize(),Ta.crossVectors(gn,ki),s[0]=ki.x,s[4]=Ta.x,s[8]=gn.x,s[1]=ki.y,s[5]=Ta.y,s[9]=gn.y,s[2]=ki.z,s[6]=Ta.z,s[10]=gn.z,this}multiply(t){return this.multiplyMatrices(this,t)}premultiply(t){return this.multiplyMatrices(t,this)}multiplyMatrices(t,e){let n=t.elements,s=e.elements,r=this.elements,o=n[0],a=n[4],l=n[8],c=n[12],h=n[1],d=n[5],u=n[9],f=n[13],m=n[2],S=n[6],g=n[10],_=n[14],b=n[3],I=n[7],A=n[11],C=n[15],E=s[0],y=s[4],T=s[8],B=s[12],N=s[1],O=s[5],z=s[9],Y=s[13],L=s[2],$=s[6],j=s[10],H=s[14],rt=s[3],X=s[7],tt=s[11],et=s[15];return r[0]=o*E+a*N+l*L+c*rt,r[4]=o*y+a*O+l*$+c*X,r[8]=o*T+a*z+l*j+c*tt,r[12]=o*B+a*Y+l*H+c*et,r[1]=h*E+d*N+u*L+f*rt,r[5]=h*y+d*O+u*$+f*X,r[9]=h*T+d*z+u*j+f*tt,r[13]=h*B+d*Y+u*H+f*et,r[2]=m*E+S*N+g*L+_*rt,r[6]=m*y+S*O+g*$+_*X,r[10]=m*T+S*z+g*j+_*tt,r[14]=m*B+S*Y+g*H+_*et,r[3]=b*E+I*N+A*L+C*rt,r[7]=b*y+I*O+A*$+C*X,r[11]=b*T+I*z+A*j+C*tt,r[15]=b*B+I*Y+A*H+C*et,this}multiplyScalar(t){let e=this.elements;return e[0]*=t,e[4]*=t,e[8]*=t,e[12]*=t,e[1]*=t,e[5]*=t,e[9]*=t,e[13]*=t,e[2]*=t,e[6]*=t,e[10]*=t,e[14]*=t,e[3]*=t,e[7]*=t,e[11]*=t,e[15]*=t,this}determinant(){let t=this.elements,e=t[0],n=t[4],s=t[8],r=t[12],o=t[1],a=t[5],l=t[9],c=t[13],h=t[2],d=t[6],u=t[10],f=t[14],m=t[3],S=t[7],g=t[11],_=t[15],b=l*f-c*u,I=a*f-c*d,A=a*u-l*d,C=o*f-c*h,E=o*u-l*h,y=o*d-a*h;return e*(S*b-g*I+_*A)-n*(m*b-g*C+_*E)+s*(m*I-S*C+_*y)-r*(m*A-S*E+g*y)}determinantAffine(){let t=this.elements,e=t[0],n=t[4],s=t[8],r=t[1],o=t[5],a=t[9],l=t[2],c=t[6],h=t[10];return e*(o*h-a*c)-n*(r*h-a*l)+s*(r*c-o*l)}transpose(){let t=this.elements,e;return e=t[1],t[1]=t[4],t[4]=e,e=t[2],t[2]=t[8],t[8]=e,e=t[6],t[6]=t[9],t[9]=e,e=t[3],t[3]=t[12],t[12]=e,e=t[7],t[7]=t[13],t[13]=e,e=t[11],t[11]=t[14],t[14]=e,this}setPosition(t,e,n){let s=this.elements;return t.isVector3?(s[12]=t.x,s[13]=t.y,s[14]=t.z):(s[12]=t,s[13]=e,s[14]=n),this}invert(){let t=this.elements,e=t[0],n=t[1],s=t[2],r=t[3],o=t[4],a=t[5],l=t[6],c=t[7],h=t[8],d=t[9],u=t[10],f=t[11],m=t[12],S=t[13],g=t[14],_=t[15],b=e*a-n*o,I=e*l-s*o,A=e*c-r*o,C=n*l-s*a,E=n*c-r*a,y=s*c-r*l,T=h*S-d*m,B=h*g-u*m,N=h*_-f*m,O=d*g-u*S,z=d*_-f*S,Y=u*_-f*g,L=b*Y-I*z+A*O+C*N-E*B+y*T;if(L===0)return this.set(0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0);let $=1/L;return t[0]=(a*Y-l*z+c*O)*$,t[1]=(s*z-n*Y-r*O)*$,t[2]=(S*y-g*E+_*C)*$,t[3]=(u*E-d*y-f*C)*$,t[4]=(l*N-o*Y-c*B)*$,t[5]=(e*Y-s*N+r*B)*$,t[6]=(g*A-m*y-_*I)*$,t[7]=(h*y-u*A+f*I)*$,t[8]=(o*z-a*N+c*T)*$,t[9]=(n*N-e*z-r*T)*$,t[10]=(m*E-S*A+_*b)*$,t[11]=(d*A-h*E-f*b)*$,t[12]=(a*B-o*O-l*T)*$,t[13]=(e*O-n*B+s*T)*$,t[14]=(S*I-m*C-g*b)*$,t[15]=(h*C-d*I+u*b)*$,this}scale(t){let e=this.elements,n=t.x,s=t.y,r=t.z;return e[0]*=n,e[4]*=s,e[8]*=r,e[1]*=n,e[5]*=s,e[9]*=r,e[2]*=n,e[6]*=s,e[10]*=r,e[3]*=n,e[7]*=s,e[11]*=r,this}getMaxScaleOnAxis(){let t=this.elements,e=t[0]*t[0]+t[1]*t[1]+t[2]*t[2],n=t[4]*t[4]+t[5]*t[5]+t[6]*t[6],s=t[8]*t[8]+t[9]*t[9]+t[10]*t[10];return Math.sqrt(Math.max(e,n,s))}makeTranslation(t,e,n){return t.isVector3?this.set(1,0,0,t.x,0,1,0,t.y,0,0,1,t.z,0,0,0,1):this.set(1,0,0,t,0,1,0,e,0,0,1,n,0,0,0,1),this}makeRotationX(t){let e=Math.cos(t),n=Math.sin(t);return this.set(1,0,0,0,0,e,-n,0,0,n,e,0,0,0,0,1),this}makeRotationY(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,0,n,0,0,1,0,0,-n,0,e,0,0,0,0,1),this}makeRotationZ(t){let e=Math.cos(t),n=Math.sin(t);return this.set(e,-n,0,0,n,e,0,0,0,0,1,0,0,0,0,1),this}makeRotationAxis(t,e){let n=Math.cos(e),s=Math.sin(e),r=1-n,o=t.x,a=t.y,l=t.z,c=r*o,h=r*a;return this.set(c*o+n,c*a-s*l,c*l+s*a,0,c*a+s*l,h*a+n,h*l-s*o,0,c*l-s*a,h*l+s*o,r*l*l+n,0,0,0,0,1),this}makeScale(t,e,n){return this.set(t,0,0,0,0,e,0,0,0,0,n,0,0,0,0,1),this}makeShear(t,e,n,s,r,o){return this.set(1,n,r,0,t,1,o,0,e,s,1,0,0,0,0,1),this}compose(t,e,n){let s=this.elements,r=e._x,o=e._y,a=e._z,l=e._w,c=r+r,h=o+o,d=a+a,u=r*c,f=r*h,m=r*d,S=o*h,g=o*d,_=a*d,b=l*c,I=l*h,A=l*d,C=n.x,E=n.y,y=n.z;return s[0]=(1-(S+_))*C,s[1]=(f+A)*C,s[2]=(m-I)*C,s[3]=0,s[4]=(f-A)*E,s[5]=(1-(u+_))*E,s[6]=(g+b)*E,s[7]=0,s[8]=(m+I)*y,s[9]=(g-b)*y,s[10]=(1-(u+S))*y,s[11]=0,s[12]=t.x,s[13]=t.y,s[14]=t.z,s[15]=1,this}decompose(t,e,n){let s=this.elements;t.x=s[12],t.y=s[13],t.z=s[14];let r=this.determinantAffine();if(r===0)return n.set(1,1,1),e.identity(),this;let o=Ls.set(s[0],s[1],s[2]).length(),a=Ls.set(s[4],s[5],s[6]).length(),l=Ls.set(s[8],s[9],s[10]).length();r<0&&(o=-o),$n.copy(this);let c=1/o,h=1/a,d=1/l;return $n.elements[0]*=c,$n.elements[1]*=c,$n.elements[2]*=c,$n.elements[4]*=h,$n.elements[5]*=h,$n.elements[6]*=h,$n.elements[8]*=d,$n.elements[9]*=d,$n.elements[10]*=d,e.setFromRotationMatrix($n),n.x=o,n.y=a,n.z=l,this}makePerspective(t,e,n,s,r,o,a=On,l=!1){let c=this.elements,h=2*r/(e-t),d=2*r/(n-s),u=(e+t)/(e-t),f=(n+s)/(n-s),m,S;if(l)m=r/(o-r),S=o*r/(o-r);else if(a===On)m=-(o+r)/(o-r),S=-2*o*r/(o-r);else if(a===Yr)m=-o/(o-r),S=-o*r/(o-r);else throw new Error("THREE.Matrix4.makePerspective(): Invalid coordinate system: "+a);return c[0]=h,c[4]=0,c[8]=u,c[12]=0,c[1]=0,c[5]=d,c[9]=f,c[13]=0,c[2]=0,c[6]=0,c[10]=m,c[14]=S,c[3]=0,c[7]=0,c[11]=-1,c[15]=0,this}makeOrthographic(t,e,n,s,r,o,a=On,l=!1){let c=this.elements,h=2/(e-t),d=2/(n-s),u=-(e+t)/(e-t),f=-(n+s)/(n-s),m,S;if(l)m=1/(o-r),S=o/(o-r);else if(a===On)m=-2/(o-r),S=-(o+r)/(o-r);else if(a===Yr)m=-1/(o-r),S=-r/(o-r);else throw new Error("THREE.Matrix4.makeOrthographic(): Invalid coordinate system: "+a);return c[0]=h,c[4]=0,c[8]=0,c[12]=u,c[1]=0,c[5]=d,c[9]=0,c[13]=f,c[2]=0,c[6]=0,c[10]=m,c[14]=S,c[3]=0,c[7]=0,c[11]=0,c[15]=1,this}equals(t){let e=this.elements,n=t.elements;for(let s=0;s<16;s++)if(e[s]!==n[s])return!1;return!0}fromArray(t,e=0){for(let n=0;n<16;n++)this.elements[n]=t[n+e];return this}toArray(t=[],e=0){let n=this.elements;return t[e]=n[0],t[e+1]=n[1],t[e+2]=n[2],t[e+3]=n[3],t[e+4]=n[4],t[e+5]=n[5],t[e+6]=n[6],t[e+7]=n[7],t[e+8]=n[8],t[e+9]=n[9],t[e+10]=n[10],t[e+11]=n[11],t[e+12]=n[12],t[e+13]=n[13],t[e+14]=n[14],t[e+15]=n[15],t}};bl.prototype.isMatrix4=!0;var ye=bl,Ls=new V,$n=new ye,KM=new V(0,0,0),jM=new V(1,1,1),ki=new V,Ta=new V,gn=new V,t0=new ye,e0=new li,Xi=class i{constructor(t=0,e=0,n=0,s=i.DEFAULT_ORDER){this.isEuler=!0,this._x=t,this._y=e,this._z=n,this._order=s}get x(){return this._x}set x(t){this._x=t,this._onChangeCallback()}get y(){return this._y}set y(t){this._y=t,this._onChangeCallback()}get z(){return this._z}set z(t){this._z=t,this._onChangeCallback()}get order(){return this._order}set order(t){this._order=t,this._onChangeCallback()}set(t,e,n,s=this._order){return this._x=t,this._y=e,this._z=n,this._order=s,this._onChangeCallback(),this}clone(){return new this.constructor(this._x,this._y,this._z,this._order)}copy(t){return this._x=t._x,this._y=t._y,this._z=t._z,this._order=t._order,this._onChangeCallback(),this}setFromRotationMatrix(t,e=this._order,n=!0){let s=t.elements,r=s[0],o=s[4],a=s[8],l=s[1],c=s[5],h=s[9],d=s[2],u=s[6],f=s[10];switch(e){case"XYZ":this._y=Math.asin(jt(a,-1,1)),Math.abs(a)<.9999999?(this._x=Math.atan2(-h,f),this._z=Math.atan2(-o,r)):(this._x=Math.atan2(u,c),this._z=0);break;case"YXZ":this._x=Math.asin(-jt(h,-1,1)),Math.abs(h)<.9999999?(this._y=Math.atan2(a,f),this._z=Math.atan2(l,c)):(this._y=Math.atan2(-d,r),this._z=0);break;case"ZXY":this._x=Math.asin(jt(u,-1,1)),Math.abs(u)<.9999999?(this._y=Math.atan2(-d,f),this._z=Math.atan2(-o,c)):(this._y=0,this._z=Math.atan2(l,r));break;case"ZYX":this._y=Math.asin(-jt(d,-1,1)),Math.abs(d)<.9999999?(this._x=Math.atan2(u,f),this._z=Math.atan2(l,r)):(this._x=0,this._z=Math.atan2(-o,c));break;case"YZX":this._z=Math.asin(jt(l,-1,1)),Math.abs(l)<.9999999?(this._x=Math.atan2(-h,c),this._y=Math.atan2(-d,r)):(this._x=0,this._y=Math.atan2(a,f));break;case"XZY":this._z=Math.asin(-jt(o,-1,1)),Math.abs(o)<.9999999?(this._x=Math.atan2(u,c),this._y=Math.atan2(a,r)):(this._x=Math.atan2(-h,f),this._y=0);break;default:Ut("Euler: .setFromRotationMatrix() encountered an unknown order: "+e)}return this._order=e,n===!0&&this._onChangeCallback(),this}setFromQuaternion(t,e,n){return t0.makeRotationFromQuaternion(t),this.setFromRotationMatrix(t0,e,n)}setFromVector3(t,e=this._order){return this.set(t.x,t.y,t.z,e)}reorder(t){return e0.setFromEuler(this),this.setFromQuaternion(e0,t)}equals(t){return t._x===this._x&&t._y===this._y&&t._z===this._z&&t._order===this._order}fromArray(t){return this._x=t[0],this._y=t[1],this._z=t[2],t[3]!==void 0&&(this._order=t[3]),this._onChangeCallback(),this}toArray(t=[],e=0){return t[e]=this._x,t[e+1]=this._y,t[e+2]=this._z,t[e+3]=this._order,t}_onChange(t){return this._onChangeCallback=t,this}_onChangeCallback(){}*[Symbol.iterator](){yield this._x,yield this._y,yield this._z,yield this._order}};Xi.DEFAULT_ORDER="XYZ";var Kr=class{constructor(){this.mask=1}set(t){this.mask=(1<<t|0)>>>0}enable(t){this.mask|=1<<t|0}enableAll(){this.mask=-1}toggle(t){this.mask^=1<<t|0}disable(t){this.mask&=~(1<<t|0)}disableAll(){this.mask=0}test(t){return(this.mask&t.mask)!==0}isEnabled(t){return(this.mask&(1<<t|0))!==0}},QM=0,n0=new V,Ns=new li,vi=new ye,Aa=new V,zr=new V,tS=new V,eS=new li,i0=new V(1,0,0),s0=new V(0,1,0),r0=new V(0,0,1),o0={type:"added"},nS={type:"removed"},Ds={type:"childadded",child:null},fu={type:"childremoved",child:null},Fn=class i extends ai{constructor(){super(),this.isObject3D=!0,Object.defineProperty(this,"id",{value:QM++}),this.uuid=_o(),this.name="",this.type="Object3D",this.parent=null,this.children=[],this.up=i.DEFAULT_UP.clone();let t=new V,e=new Xi,n=new li,s=new V(1,1,1);function r(){n.setFromEuler(e,!1)}function o(){e.setFromQuaternion(n,void 0,!1)}e._onChange(r),n._onChange(o),Object.defineProperties(this,{position:{configurable:!0,enumerable:!0,value:t},rotation:{configurable:!0,enumerable:!0,value:e},quaternion:{configurable:!0,enumerable:!0,value:n},scale:{configurable:!0,enumerable:!0,value:s},modelViewMatrix:{value:new ye},normalMatrix:{value:new Bt}}),this.matrix=new ye,this.matrixWorld=new ye,this.matrixAutoUpdate=i.DEFAULT_MATRIX_AUTO_UPDATE,this.matrixWorldAutoUpdate=i.DEFAULT_MATRIX_WORLD_AUTO_UPDATE,this.matrixWorldNeedsUpdate=!1,this.layers=new Kr,this.visible=!0,this.castShadow=!1,this.receiveShadow=!1,this.frustumCulled=!0,this.renderOrder=0,this.animations=[],this.customDepthMaterial=void 0,this.customDistanceMaterial=void 0,this.static=!1,this.userData={},this.pivot=null}onBeforeShadow(){}onAfterShadow(){}onBeforeRender(){}onAfterRender(){}applyMatrix4(t){this.matrixAutoUpdate&&this.updateMatrix(),this.matrix.premultiply(t),this.matrix.decompose(this.position,this.quaternion,this.scale),this.pivot!==null&&this.position.copy(this.pivot).applyMatrix4(this.matrix).sub(this.pivot)}applyQuaternion(t){return this.quaternion.premultiply(t),this}setRotationFromAxisAngle(t,e){this.quaternion.setFromAxisAngle(t,e)}setRotationFromEuler(t){this.quaternion.setFromEuler(t,!0)}setRotationFromMatrix(t){this.quaternion.setFromRotationMatrix(t)}setRotationFromQuaternion(t){this.quaternion.copy(t)}rotateOnAxis(t,e){return Ns.setFromAxisAngle(t,e),this.quaternion.multiply(Ns),this}rotateOnWorldAxis(t,e){return Ns.setFromAxisAngle(t,e),this.quaternion.premultiply(Ns),this}rotateX(t){return this.rotateOnAxis(i0,t)}rotateY(t){return this.rotateOnAxis(s0,t)}rotateZ(t){return this.rotateOnAxis(r0,t)}translateOnAxis(t,e){return n0.copy(t).applyQuaternion(this.quaternion),this.position.add(n0.multiplyScalar(e)),this}translateX(t){return this.translateOnAxis(i0,t)}translateY(t){return this.translateOnAxis(s0,t)}translateZ(t){return this.translateOnAxis(r0,t)}localToWorld(t){return this.updateWorldMatrix(!0,!1),t.applyMatrix4(this.matrixWorld)}worldToLocal(t){return this.updateWorldMatrix(!0,!1),t.applyMatrix4(vi.copy(this.matrixWorld).invert())}lookAt(t,e,n){t.isVector3?Aa.copy(t):Aa.set(t,e,n);let s=this.parent;this.updateWorldMatrix(!0,!1),zr.setFromMatrixPosition(this.matrixWorld),this.isCamera||this.isLight?vi.lookAt(zr,Aa,this.up):vi.lookAt(Aa,zr,this.up),this.quaternion.setFromRotationMatrix(vi),s&&(vi.extractRotation(s.matrixWorld),Ns.setFromRotationMatrix(vi),this.quaternion.premultiply(Ns.invert()))}add(t){if(arguments.length>1){for(let e=0;e<arguments.length;e++)this.add(arguments[e]);return this}return t===this?(Ft("Object3D.add: object can't be added as a child of itself.",t),this):(t&&t.isObject3D?(t.removeFromParent(),t.parent=this,this.children.push(t),t.dispatchEvent(o0),Ds.child=t,this.dispatchEvent(Ds),Ds.child=null):Ft("Object3D.add: object not an instance of THREE.Object3D.",t),this)}remove(t){if(arguments.length>1){for(let n=0;n<arguments.length;n++)this.remove(arguments[n]);return this}let e=this.children.indexOf(t);return e!==-1&&(t.parent=null,this.children.splice(e,1),t.dispatchEvent(nS),fu.child=t,this.dispatchEvent(fu),fu.child=null),this}removeFromParent(){let t=this.parent;return t!==null&&t.remove(this),this}clear(){return this.remove(...this.children)}attach(t){return this.updateWorldMatrix(!0,!1),vi.copy(this.matrixWorld).invert(),t.parent!==null&&(t.parent.updateWorldMatrix(!0,!1),vi.multiply(t.parent.matrixWorld)),t.applyMatrix4(vi),t.removeFromParent(),t.parent=this,this.children.push(t),t.updateWorldMatrix(!1,!0),t.dispatchEvent(o0),Ds.child=t,this.dispatchEvent(Ds),Ds.child=null,this}getObjectById(t){return this.getObjectByProperty("id",t)}getObjectByName(t){return this.getObjectByProperty("name",t)}getObjectByProperty(t,e){if(this[t]===e)return this;for(let n=0,s=this.children.length;n<s;n++){let o=this.children[n].getObjectByProperty(t,e);if(o!==void 0)return o}}getObjectsByProperty(t,e,n=[]){this[t]===e&&n.push(this);let s=this.children;for(let r=0,o=s.length;r<o;r++)s[r].getObjectsByProperty(t,e,n);return n}getWorldPosition(t){return this.updateWorldMatrix(!0,!1),t.setFromMatrixPosition(this.matrixWorld)}getWorldQuaternion(t){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(zr,t,tS),t}getWorldScale(t){return this.updateWorldMatrix(!0,!1),this.matrixWorld.decompose(zr,eS,t),t}getWorldDirection(t){this.updateWorldMatrix(!0,!1);let e=this.matrixWorld.elements;return t.set(e[8],e[9],e[10]).normalize()}raycast(){}intersectsFrustum(){return!0}traverse(t){t(this);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].traverse(t)}traverseVisible(t){if(this.visible===!1)return;t(this);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].traverseVisible(t)}traverseAncestors(t){let e=this.parent;e!==null&&(t(e),e.traverseAncestors(t))}updateMatrix(){this.matrix.compose(this.position,this.quaternion,this.scale);let t=this.pivot;if(t!==null){let e=t.x,n=t.y,s=t.z,r=this.matrix.elements;r[12]+=e-r[0]*e-r[4]*n-r[8]*s,r[13]+=n-r[1]*e-r[5]*n-r[9]*s,r[14]+=s-r[2]*e-r[6]*n-r[10]*s}this.matrixWorldNeedsUpdate=!0}updateMatrixWorld(t){this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||t)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,t=!0);let e=this.children;for(let n=0,s=e.length;n<s;n++)e[n].updateMatrixWorld(t)}updateWorldMatrix(t,e,n=!1){let s=this.parent;if(t===!0&&s!==null&&s.updateWorldMatrix(!0,!1),this.matrixAutoUpdate&&this.updateMatrix(),(this.matrixWorldNeedsUpdate||n)&&(this.matrixWorldAutoUpdate===!0&&(this.parent===null?this.matrixWorld.copy(this.matrix):this.matrixWorld.multiplyMatrices(this.parent.matrixWorld,this.matrix)),this.matrixWorldNeedsUpdate=!1,n=!0),e===!0){let r=this.children;for(let o=0,a=r.length;o<a;o++)r[o].updateWorldMatrix(!1,!0,n)}}toJSON(t){let e=t===void 0||typeof t=="string",n={};e&&(t={geometries:{},materials:{},textures:{},images:{},shapes:{},skeletons:{},animations:{},nodes:{}},n.metadata={version:4.7,type:"Object",generator:"Object3D.toJSON"});let s={};s.uuid=this.uuid,s.type=this.type,s.name=this.name,s.castShadow=this.castShadow,s.receiveShadow=this.receiveShadow,s.visible=this.visible,s.frustumCulled=this.frustumCulled,s.renderOrder=this.renderOrder,s.static=this.static,s.matrixAutoUpdate=this.matrixAutoUpdate,Object.keys(this.userData).length>0&&(s.userData=this.userData),s.layers=this.layers.mask,s.matrix=this.matrix.toArray(),s.up=this.up.toArray(),this.pivot!==null&&(s.pivot=this.pivot.toArray()),this.morphTargetDictionary!==void 0&&(s.morphTargetDictionary=Object.assign({},this.morphTargetDictionary)),this.morphTargetInfluences!==void 0&&(s.morphTargetInfluences=this.morphTargetInfluences.slice()),this.isInstancedMesh&&(s.type="InstancedMesh",s.count=this.count,s.instanceMatrix=this.instanceMatrix.toJSON(),this.instanceColor!==null&&(s.instanceColor=this.instanceColor.toJSON())),this.isBatchedMesh&&(s.type="BatchedMesh",s.perObjectFrustumCulled=this.perObjectFrustumCulled,s.sortObjects=this.sortObjects,s.drawRanges=this._drawRanges,s.reservedRanges=this._reservedRanges,s.geometryInfo=this._geometryInfo.map(a=>({...a,boundingBox:a.boundingBox?a.boundingBox.toJSON():void 0,boundingSphere:a.boundingSphere?a.boundingSphere.toJSON():void 0})),s.instanceInfo=this._instanceInfo.map(a=>({...a})),s.availableInstanceIds=this._availableInstanceIds.slice(),s.availableGeometryIds=this._availableGeometryIds.slice(),s.nextIndexStart=this._nextIndexStart,s.nextVertexStart=this._nextVertexStart,s.geometryCount=this._geometryCount,s.maxInstanceCount=this._maxInstanceCount,s.maxVertexCount=this._maxVertexCount,s.maxIndexCount=this._maxIndexCount,s.geometryInitialized=this._geometryInitialized,s.matricesTexture=this._matricesTexture.toJSON(t),s.indirectTexture=this._indirectTexture.toJSON(t),this._colorsTexture!==null&&(s.colorsTexture=this._colorsTexture.toJSON(t)),this.boundingSphere!==null&&(s.boundingSphere=this.boundingSphere.toJSON()),this.boundingBox!==null&&(s.boundingBox=this.boundingBox.toJSON()));function r(a,l){return a[l.uuid]===void 0&&(a[l.uuid]=l.toJSON(t)),l.uuid}if(this.isScene)this.background&&(this.background.isColor?s.background=this.background.toJSON():this.background.isTexture&&(s.background=this.background.toJSON(t).uuid)),this.environment&&this.environment.isTexture&&this.environment.isRenderTargetTexture!==!0&&(s.environment=this.environment.toJSON(t).uuid);else if(this.isMesh||this.isLine||this.isPoints){s.geometry=r(t.geometries,this.geometry);let a=this.geometry.parameters;if(a!==void 0&&a.shapes!==void 0){let l=a.shapes;if(Array.isArray(l))for(let c=0,h=l.length;c<h;c++){let d=l[c];r(t.shapes,d)}else r(t.shapes,l)}}if(this.isSkinnedMesh&&(s.bindMode=this.bindMode,s.bindMatrix=this.bindMatrix.toArray(),this.skeleton!==void 0&&(r(t.skeletons,this.skeleton),s.skeleton=this.skeleton.uuid)),this.material!==void 0)if(Array.isArray(this.material)){let a=[];for(let l=0,c=this.material.length;l<c;l++)a.push(r(t.materials,this.material[l]));s.material=a}else s.material=r(t.materials,this.material);if(this.children.length>0){s.children=[];for(let a=0;a<this.children.length;a++)s.children.push(this.children[a].toJSON(t).object)}if(this.animations.length>0){s.animations=[];for(let a=0;a<this.animations.length;a++){let l=this.animations[a];s.animations.push(r(t.animations,l))}}if(e){let a=o(t.geometries),l=o(t.materials),c=o(t.textures),h=o(t.images),d=o(t.shapes),u=o(t.skeletons),f=o(t.animations),m=o(t.nodes);a.length>0&&(n.geometries=a),l.length>0&&(n.materials=l),c.length>0&&(n.textures=c),h.length>0&&(n.images=h),d.length>0&&(n.shapes=d),u.length>0&&(n.skeletons=u),f.length>0&&(n.animations=f),m.length>0&&(n.nodes=m)}return n.object=s,n;function o(a){let l=[];for(let c in a){let h=a[c];delete h.metadata,l.push(h)}return l}}clone(t){return new this.constructor().copy(this,t)}copy(t,e=!0){if(this.name=t.name,this.up.copy(t.up),this.position.copy(t.position),this.rotation.order=t.rotation.order,this.quaternion.copy(t.quaternion),this.scale.copy(t.scale),this.pivot=t.pivot!==null?t.pivot.clone():null,this.matrix.copy(t.matrix),this.matrixWorld.copy(t.matrixWorld),this.matrixAutoUpdate=t.matrixAutoUpdate,this.matrixWorldAutoUpdate=t.matrixWorldAutoUpdate,this.matrixWorldNeedsUpdate=t.matrixWorldNeedsUpdate,this.layers.mask=t.layers.mask,this.visible=t.visible,this.castShadow=t.castShadow,this.receiveShadow=t.receiveShadow,this.frustumCulled=t.frustumCulled,this.renderOrder=t.renderOrder,this.static=t.static,this.animations=t.animations.slice(),this.userData=JSON.parse(JSON.stringify(t.userData)),e===!0)for(let n=0;n<t.children.length;n++){let s=t.children[n];this.add(s.clone())}return this}dispose(){this.dispatchEvent({type:"dispose"})}};Fn.DEFAULT_UP=new V(0,1,0);Fn.DEFAULT_MATRIX_AUTO_UPDATE=!0;Fn.DEFAULT_MATRIX_WORLD_AUTO_UPDATE=!0;var as=class extends Fn{constructor(){super(),this.isGroup=!0,this.type="Group"}},iS={type:"move"},qs=class{constructor(){this._targetRay=null,this._grip=null,this._hand=null}getHandSpace(){return this._hand===null&&(this._hand=new as,this._hand.matrixAutoUpdate=!1,this._hand.visible=!1,this._hand.joints={},this._hand.inputState={pinching:!1}),this._hand}getTargetRaySpace(){return this._targetRay===null&&(this._targetRay=new as,this._targetRay.matrixAutoUpdate=!1,this._targetRay.visible=!1,this._targetRay.hasLinearVelocity=!1,this._targetRay.linearVelocity=new V,this._targetRay.hasAngularVelocity=!1,this._targetRay.angularVelocity=new V),this._targetRay}getGripSpace(){return this._grip===null&&(this._grip=new as,this._grip.matrixAutoUpdate=!1,this._grip.visible=!1,this._grip.hasLinearVelocity=!1,this._grip.linearVelocity=new V,this._grip.hasAngularVelocity=!1,this._grip.angularVelocity=new V,this._grip.eventsEnabled=!1),this._grip}dispatchEvent(t){return this._targetRay!==null&&this._targetRay.dispatchEvent(t),this._grip!==null&&this._grip.dispatchEvent(t),this._hand!==null&&this._hand.dispatchEvent(t),this}connect(t){if(t&&t.hand){let e=this._hand;if(e)for(let n of t.hand.values())this._getHandJoint(e,n)}return this.dispatchEvent({type:"connected",data:t}),this}disconnect(t){return this.dispatchEvent({type:"disconnected",data:t}),this._targetRay!==null&&(this._targetRay.visible=!1),this._grip!==null&&(this._grip.visible=!1),this._hand!==null&&(this._hand.visible=!1),this}update(t,e,n){let s=null,r=null,o=null,a=this._targetRay,l=this._grip,c=this._hand;if(t&&e.session.visibilityState!=="visible-blurred"){if(c&&t.hand){o=!0;for(let S of t.hand.values()){let g=e.getJointPose(S,n),_=this._getHandJoint(c,S);g!==null&&(_.matrix.fromArray(g.transform.matrix),_.matrix.decompose(_.position,_.quaternion,_.scale),_.matrixWorldNeedsUpdate=!0,_.jointRadius=g.radius),_.visible=g!==null}let h=c.joints["index-finger-tip"],d=c.joints["thumb-tip"],u=h.position.distanceTo(d.position),f=.02,m=.005;c.inputState.pinching&&u>f+m?(c.inputState.pinching=!1,this.dispatchEvent({type:"pinchend",handedness:t.handedness,target:this})):!c.inputState.pinching&&u<=f-m&&(c.inputState.pinching=!0,this.dispatchEvent({type:"pinchstart",handedness:t.handedness,target:this}))}else l!==null&&t.gripSpace&&(r=e.getPose(t.gripSpace,n),r!==null&&(l.matrix.fromArray(r.transform.matrix),l.matrix.decompose(l.position,l.quaternion,l.scale),l.matrixWorldNeedsUpdate=!0,r.linearVelocity?(l.hasLinearVelocity=!0,l.linearVelocity.copy(r.linearVelocity)):l.hasLinearVelocity=!1,r.angularVelocity?(l.hasAngularVelocity=!0,l.angularVelocity.copy(r.angularVelocity)):l.hasAngularVelocity=!1,l.eventsEnabled&&l.dispatchEvent({type:"gripUpdated",data:t,target:this})));a!==null&&(s=e.getPose(t.targetRaySpace,n),s===null&&r!==null&&(s=r),s!==null&&(a.matrix.fromArray(s.transform.matrix),a.matrix.decompose(a.position,a.quaternion,a.scale),a.matrixWorldNeedsUpdate=!0,s.linearVelocity?(a.hasLinearVelocity=!0,a.linearVelocity.copy(s.linearVelocity)):a.hasLinearVelocity=!1,s.angularVelocity?(a.hasAngularVelocity=!0,a.angularVelocity.copy(s.angularVelocity)):a.hasAngularVelocity=!1,this.dispatchEvent(iS)))}return a!==null&&(a.visible=s!==null),l!==null&&(l.visible=r!==null),c!==null&&(c.visible=o!==null),this}_getHandJoint(t,e){if(t.joints[e.jointName]===void 0){let n=new as;n.matrixAutoUpdate=!1,n.visible=!1,t.joints[e.jointName]=n,t.add(n)}return t.joints[e.jointName]}},e_={aliceblue:15792383,antiquewhite:16444375,aqua:65535,aquamarine:8388564,azure:15794175,beige:16119260,bisque:16770244,black:0,blanchedalmond:16772045,blue:255,blueviolet:9055202,brown:10824234,burlywood:14596231,cadetblue:6266528,chartreuse:8388352,chocolate:13789470,coral:16744272,cornflowerblue:6591981,cornsilk:16775388,crimson:14423100,cyan:65535,darkblue:139,darkcyan:35723,darkgoldenrod:12092939,darkgray:11119017,darkgreen:25600,darkgrey:11119017,darkkhaki:12433259,darkmagenta:9109643,darkolivegreen:5597999,darkorange:16747520,darkorchid:10040012,darkred:9109504,darksalmon:15308410,darkseagreen:9419919,darkslateblue:4734347,darkslategray:3100495,darkslategrey:3100495,darkturquoise:52945,darkviolet:9699539,deeppink:16716947,deepskyblue:49151,dimgray:6908265,dimgrey:6908265,dodgerblue:2003199,firebrick:11674146,floralwhite:16775920,forestgreen:2263842,fuchsia:16711935,gainsboro:14474460,ghostwhite:16316671,gold:16766720,goldenrod:14329120,gray:8421504,green:32768,greenyellow:11403055,grey:8421504,honeydew:15794160,hotpink:16738740,indianred:13458524,indigo:4915330,ivory:16777200,khaki:15787660,lavender:15132410,lavenderblush:16773365,lawngreen:8190976,lemonchiffon:16775885,lightblue:11393254,lightcoral:15761536,lightcyan:14745599,lightgoldenrodyellow:16448210,lightgray:13882323,lightgreen:9498256,lightgrey:13882323,lightpink:16758465,lightsalmon:16752762,lightseagreen:2142890,lightskyblue:8900346,lightslategray:7833753,lightslategrey:7833753,lightsteelblue:11584734,lightyellow:16777184,lime:65280,limegreen:3329330,linen:16445670,magenta:16711935,maroon:8388608,mediumaquamarine:6737322,mediumblue:205,mediumorchid:12211667,mediumpurple:9662683,mediumseagreen:3978097,mediumslateblue:8087790,mediumspringgreen:64154,mediumturquoise:4772300,mediumvioletred:13047173,midnightblue:1644912,mintcream:16121850,mistyrose:16770273,moccasin:16770229,navajowhite:16768685,navy:128,oldlace:16643558,olive:8421376,olivedrab:7048739,orange:16753920,orangered:16729344,orchid:14315734,palegoldenrod:15657130,palegreen:10025880,paleturquoise:11529966,palevioletred:14381203,papayawhip:16773077,peachpuff:16767673,peru:13468991,pink:16761035,plum:14524637,powderblue:11591910,purple:8388736,rebeccapurple:6697881,red:16711680,rosybrown:12357519,royalblue:4286945,saddlebrown:9127187,salmon:16416882,sandybrown:16032864,seagreen:3050327,seashell:16774638,sienna:10506797,silver:12632256,skyblue:8900331,slateblue:6970061,slategray:7372944,slategrey:7372944,snow:16775930,springgreen:65407,steelblue:4620980,tan:13808780,teal:32896,thistle:14204888,tomato:16737095,turquoise:4251856,violet:15631086,wheat:16113331,white:16777215,whitesmoke:16119285,yellow:16776960,yellowgreen:10145074},Bi={h:0,s:0,l:0},Ea={h:0,s:0,l:0};function pu(i,t,e){return e<0&&(e+=1),e>1&&(e-=1),e<1/6?i+(t-i)*6*e:e<1/2?t:e<2/3?i+(t-i)*6*(2/3-e):i}var ee=class{constructor(t,e,n){return this.isColor=!0,this.r=1,this.g=1,this.b=1,this.set(t,e,n)}set(t,e,n){if(e===void 0&&n===void 0){let s=t;s&&s.isColor?this.copy(s):typeof s=="number"?this.setHex(s):typeof s=="string"&&this.setStyle(s)}else this.setRGB(t,e,n);return this}setScalar(t){return this.r=t,this.g=t,this.b=t,this}setHex(t,e=xn){return t=Math.floor(t),this.r=(t>>16&255)/255,this.g=(t>>8&255)/255,this.b=(t&255)/255,Kt.colorSpaceToWorking(this,e),this}setRGB(t,e,n,s=Kt.workingColorSpace){return this.r=t,this.g=e,this.b=n,Kt.colorSpaceToWorking(this,s),this}setHSL(t,e,n,s=Kt.workingColorSpace){if(t=XM(t,1),e=jt(e,0,1),n=jt(n,0,1),e===0)this.r=this.g=this.b=n;else{let r=n<=.5?n*(1+e):n+e-n*e,o=2*n-r;this.r=pu(o,r,t+1/3),this.g=pu(o,r,t),this.b=pu(o,r,t-1/3)}return Kt.colorSpaceToWorking(this,s),this}setStyle(t,e=xn){function n(r){r!==void 0&&parseFloat(r)<1&&Ut("Color: Alpha component of "+t+" will be ignored.")}let s;if(s=/^(\w+)\(([^\)]*)\)/.exec(t)){let r,o=s[1],a=s[2];switch(o){case"rgb":case"rgba":if(r=/^\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setRGB(Math.min(255,parseInt(r[1],10))/255,Math.min(255,parseInt(r[2],10))/255,Math.min(255,parseInt(r[3],10))/255,e);if(r=/^\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setRGB(Math.min(100,parseFloat(r[1]))/100,Math.min(100,parseFloat(r[2]))/100,Math.min(100,parseFloat(r[3]))/100,e);break;case"hsl":case"hsla":if(r=/^\s*([+-]?(?:\d+(?:\.\d+)?|\.\d+))\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*,\s*(\d+(?:\.\d+)?|\.\d+)\%\s*(?:,\s*(\d+(?:\.\d+)?|\.\d+)\s*)?$/.exec(a))return n(r[4]),this.setHSL(parseFloat(r[1])/360,parseFloat(r[2])/100,parseFloat(r[3])/100,e);break;default:Ut("Color: Unknown color model "+t)}}else if(s=/^\#([A-Fa-f\d]+)$/.exec(t)){let r=s[1],o=r.length;if(o===3)return this.setRGB(parseInt(r.charAt(0),16)/15,parseInt(r.charAt(1),16)/15,parseInt(r.charAt(2),16)/15,e);if(o===6)return this.setHex(parseInt(r,16),e);Ut("Color: Invalid hex color "+t)}else if(t&&t.length>0)return this.setColorName(t,e);return this}setColorName(t,e=xn){let n=e_[t.toLowerCase()];return n!==void 0?this.setHex(n,e):Ut("Color: Unknown color "+t),this}clone(){return new this.constructor(this.r,this.g,this.b)}copy(t){return this.r=t.r,this.g=t.g,this.b=t.b,this}copySRGBToLinear(t){return this.r=Ti(t.r),this.g=Ti(t.g),this.b=Ti(t.b),this}copyLinearToSRGB(t){return this.r=Ws(t.r),this.g=Ws(t.g),this.b=Ws(t.b),this}convertSRGBToLinear(){return this.copySRGBToLinear(this),this}convertLinearToSRGB(){return this.copyLinearToSRGB(this),this}getHex(t=xn){return Kt.workingToColorSpace(tn.copy(this),t),Math.round(jt(tn.r*255,0,255))*65536+Math.round(jt(tn.g*255,0,255))*256+Math.round(jt(tn.b*255,0,255))}getHexString(t=xn){return("000000"+this.getHex(t).toString(16)).slice(-6)}getHSL(t,e=Kt.workingColorSpace){Kt.workingToColorSpace(tn.copy(this),e);let n=tn.r,s=tn.g,r=tn.b,o=Math.max(n,s,r),a=Math.min(n,s,r),l,c,h=(a+o)/2;if(a===o)l=0,c=0;else{let d=o-a;switch(c=h<=.5?d/(o+a):d/(2-o-a),o){case n:l=(s-r)/d+(s<r?6:0);break;case s:l=(r-n)/d+2;break;case r:l=(n-s)/d+4;break}l/=6}return t.h=l,t.s=c,t.l=h,t}getRGB(t,e=Kt.workingColorSpace){return Kt.workingToColorSpace(tn.copy(this),e),t.r=tn.r,t.g=tn.g,t.b=tn.b,t}getStyle(t=xn){Kt.workingToColorSpace(tn.copy(this),t);let e=tn.r,n=tn.g,s=tn.b;return t!==xn?`color(${t} ${e.toFixed(3)} ${n.toFixed(3)} ${s.toFixed(3)})`:`rgb(${Math.round(e*255)},${Math.round(n*255)},${Math.round(s*255)})`}offsetHSL(t,e,n){return this.getHSL(Bi),this.setHSL(Bi.h+t,Bi.s+e,Bi.l+n)}add(t){return this.r+=t.r,this.g+=t.g,this.b+=t.b,this}addColors(t,e){return this.r=t.r+e.r,this.g=t.g+e.g,this.b=t.b+e.b,this}addScalar(t){return this.r+=t,this.g+=t,this.b+=t,this}sub(t){return this.r=Math.max(0,this.r-t.r),this.g=Math.max(0,this.g-t.g),this.b=Math.max(0,this.b-t.b),this}multiply(t){return this.r*=t.r,this.g*=t.g,this.b*=t.b,this}multiplyScalar(t){return this.r*=t,this.g*=t,this.b*=t,this}lerp(t,e){return this.r+=(t.r-this.r)*e,this.g+=(t.g-this.g)*e,this.b+=(t.b-this.b)*e,this}lerpColors(t,e,n){return this.r=t.r+(e.r-t.r)*n,this.g=t.g+(e.g-t.g)*n,this.b=t.b+(e.b-t.b)*n,this}lerpHSL(t,e){this.getHSL(Bi),t.getHSL(Ea);let n=lu(Bi.h,Ea.h,e),s=lu(Bi.s,Ea.s,e),r=lu(Bi.l,Ea.l,e);return this.setHSL(n,s,r),this}setFromVector3(t){return this.r=t.x,this.g=t.y,this.b=t.z,this}applyMatrix3(t){let e=this.r,n=this.g,s=this.b,r=t.elements;return this.r=r[0]*e+r[3]*n+r[6]*s,this.g=r[1]*e+r[4]*n+r[7]*s,this.b=r[2]*e+r[5]*n+r[8]*s,this}equals(t){return t.r===this.r&&t.g===this.g&&t.b===this.b}fromArray(t,e=0){return this.r=t[e],this.g=t[e+1],this.b=t[e+2],this}toArray(t=[],e=0){return t[e]=this.r,t[e+1]=this.g,t[e+2]=this.b,t}fromBufferAttribute(t,e){return this.r=t.getX(e),this.g=t.getY(e),this.b=t.getZ(e),this}toJSON(){return this.getHex()}*[Symbol.iterator](){yield this.r,yield this.g,yield this.b}},tn=new ee;ee.NAMES=e_;var jr=class extends Fn{constructor(){super(),this.isScene=!0,this.type="Scene",this.background=null,this.environment=null,this.fog=null,this.backgroundBlurriness=0,this.backgroundIntensity=1,this.backgroundRotation=new Xi,this.environmentIntensity=1,this.environmentRotation=new Xi,this.overrideMaterial=null,typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}copy(t,e){return super.copy(t,e),this.background=t.background!==null?t.background.clone():null,this.environment=t.environment!==null?t.environment.clone():null,this.fog=t.fog!==null?t.fog.clone():null,this.backgroundBlurriness=t.backgroundBlurriness,this.backgroundIntensity=t.backgroundIntensity,this.backgroundRotation.copy(t.backgroundRotation),this.environmentIntensity=t.environmentIntensity,this.environmentRotation.copy(t.environmentRotation),this.overrideMaterial=t.overrideMaterial!==null?t.overrideMaterial.clone():null,this.matrixAutoUpdate=t.matrixAutoUpdate,this}toJSON(t){let e=super.toJSON(t);return this.fog!==null&&(e.object.fog=this.fog.toJSON()),e.object.backgroundBlurriness=this.backgroundBlurriness,e.object.backgroundIntensity=this.backgroundIntensity,e.object.backgroundRotation=this.backgroundRotation.toArray(),e.object.environmentIntensity=this.environmentIntensity,e.object.environmentRotation=this.environmentRotation.toArray(),e}},qn=new V,Mi=new V,mu=new V,Si=new V,Os=new V,Us=new V,a0=new V,gu=new V,_u=new V,xu=new V,yu=new xe,vu=new xe,Mu=new xe,Hi=class i{constructor(t=new V,e=new V,n=new V){this.a=t,this.b=e,this.c=n}static getNormal(t,e,n,s){s.subVectors(n,e),qn.subVectors(t,e),s.cross(qn);let r=s.lengthSq();return r>0?s.multiplyScalar(1/Math.sqrt(r)):s.set(0,0,0)}static getBarycoord(t,e,n,s,r){qn.subVectors(s,e),Mi.subVectors(n,e),mu.subVectors(t,e);let o=qn.dot(qn),a=qn.dot(Mi),l=qn.dot(mu),c=Mi.dot(Mi),h=Mi.dot(mu),d=o*c-a*a;if(d===0)return r.set(0,0,0),null;let u=1/d,f=(c*l-a*h)*u,m=(o*h-a*l)*u;return r.set(1-f-m,m,f)}static containsPoint(t,e,n,s){return this.getBarycoord(t,e,n,s,Si)===null?!1:Si.x>=0&&Si.y>=0&&Si.x+Si.y<=1}static getInterpolation(t,e,n,s,r,o,a,l){return this.getBarycoord(t,e,n,s,Si)===null?(l.x=0,l.y=0,"z"in l&&(l.z=0),"w"in l&&(l.w=0),null):(l.setScalar(0),l.addScaledVector(r,Si.x),l.addScaledVector(o,Si.y),l.addScaledVector(a,Si.z),l)}static getInterpolatedAttribute(t,e,n,s,r,o){return yu.setScalar(0),vu.setScalar(0),Mu.setScalar(0),yu.fromBufferAttribute(t,e),vu.fromBufferAttribute(t,n),Mu.fromBufferAttribute(t,s),o.setScalar(0),o.addScaledVector(yu,r.x),o.addScaledVector(vu,r.y),o.addScaledVector(Mu,r.z),o}static isFrontFacing(t,e,n,s){return qn.subVectors(n,e),Mi.subVectors(t,e),qn.cross(Mi).dot(s)<0}set(t,e,n){return this.a.copy(t),this.b.copy(e),this.c.copy(n),this}setFromPointsAndIndices(t,e,n,s){return this.a.copy(t[e]),this.b.copy(t[n]),this.c.copy(t[s]),this}setFromAttributeAndIndices(t,e,n,s){return this.a.fromBufferAttribute(t,e),this.b.fromBufferAttribute(t,n),this.c.fromBufferAttribute(t,s),this}clone(){return new this.constructor().copy(this)}copy(t){return this.a.copy(t.a),this.b.copy(t.b),this.c.copy(t.c),this}getArea(){return qn.subVectors(this.c,this.b),Mi.subVectors(this.a,this.b),qn.cross(Mi).length()*.5}getMidpoint(t){return t.addVectors(this.a,this.b).add(this.c).multiplyScalar(1/3)}getNormal(t){return i.getNormal(this.a,this.b,this.c,t)}getPlane(t){return t.setFromCoplanarPoints(this.a,this.b,this.c)}getBarycoord(t,e){return i.getBarycoord(t,this.a,this.b,this.c,e)}getInterpolation(t,e,n,s,r){return i.getInterpolation(t,this.a,this.b,this.c,e,n,s,r)}containsPoint(t){return i.containsPoint(t,this.a,this.b,this.c)}isFrontFacing(t){return i.isFrontFacing(this.a,this.b,this.c,t)}intersectsBox(t){return t.intersectsTriangle(this)}closestPointToPoint(t,e){let n=this.a,s=this.b,r=this.c,o,a;Os.subVectors(s,n),Us.subVectors(r,n),gu.subVectors(t,n);let l=Os.dot(gu),c=Us.dot(gu);if(l<=0&&c<=0)return e.copy(n);_u.subVectors(t,s);let h=Os.dot(_u),d=Us.dot(_u);if(h>=0&&d<=h)return e.copy(s);let u=l*d-h*c;if(u<=0&&l>=0&&h<=0&&l-h>0)return o=l/(l-h),e.copy(n).addScaledVector(Os,o);xu.subVectors(t,r);let f=Os.dot(xu),m=Us.dot(xu);if(m>=0&&f<=m)return e.copy(r);let S=f*c-l*m;if(S<=0&&c>=0&&m<=0)return a=c/(c-m),e.copy(n).addScaledVector(Us,a);let g=h*m-f*d;if(g<=0&&d-h>=0&&f-m>=0)return a0.subVectors(r,s),a=(d-h)/(d-h+(f-m)),e.copy(s).addScaledVector(a0,a);let _=1/(g+S+u);return o=S*_,a=u*_,e.copy(n).addScaledVector(Os,o).addScaledVector(Us,a)}equals(t){return t.a.equals(this.a)&&t.b.equals(this.b)&&t.c.equals(this.c)}},$i=class{constructor(t=new V(1/0,1/0,1/0),e=new V(-1/0,-1/0,-1/0)){this.isBox3=!0,this.min=t,this.max=e}set(t,e){return this.min.copy(t),this.max.copy(e),this}setFromArray(t){this.makeEmpty();for(let e=0,n=t.length;e<n;e+=3)this.expandByPoint(Yn.fromArray(t,e));return this}setFromBufferAttribute(t){this.makeEmpty();for(let e=0,n=t.count;e<n;e++)this.expandByPoint(Yn.fromBufferAttribute(t,e));return this}setFromPoints(t){this.makeEmpty();for(let e=0,n=t.length;e<n;e++)this.expandByPoint(t[e]);return this}setFromCenterAndSize(t,e){let n=Yn.copy(e).multiplyScalar(.5);return this.min.copy(t).sub(n),this.max.copy(t).add(n),this}setFromObject(t,e=!1){return this.makeEmpty(),this.expandByObject(t,e)}clone(){return new this.constructor().copy(this)}copy(t){return this.min.copy(t.min),this.max.copy(t.max),this}makeEmpty(){return this.min.x=this.min.y=this.min.z=1/0,this.max.x=this.max.y=this.max.z=-1/0,this}isEmpty(){return this.max.x<this.min.x||this.max.y<this.min.y||this.max.z<this.min.z}getCenter(t){return this.isEmpty()?t.set(0,0,0):t.addVectors(this.min,this.max).multiplyScalar(.5)}getSize(t){return this.isEmpty()?t.set(0,0,0):t.subVectors(this.max,this.min)}expandByPoint(t){return this.min.min(t),this.max.max(t),this}expandByVector(t){return this.min.sub(t),this.max.add(t),this}expandByScalar(t){return this.min.addScalar(-t),this.max.addScalar(t),this}expandByObject(t,e=!1){t.updateWorldMatrix(!1,!1);let n=t.geometry;if(n!==void 0){let r=n.getAttribute("position");if(e===!0&&r!==void 0&&t.isInstancedMesh!==!0&&t.isBatchedMesh!==!0)for(let o=0,a=r.count;o<a;o++)t.isMesh===!0?t.getVertexPosition(o,Yn):Yn.fromBufferAttribute(r,o),Yn.applyMatrix4(t.matrixWorld),this.expandByPoint(Yn);else t.boundingBox!==void 0?(t.boundingBox===null&&t.computeBoundingBox(),Ca.copy(t.boundingBox)):(n.boundingBox===null&&n.computeBoundingBox(),Ca.copy(n.boundingBox)),Ca.applyMatrix4(t.matrixWorld),this.union(Ca)}let s=t.children;for(let r=0,o=s.length;r<o;r++)this.expandByObject(s[r],e);return this}containsPoint(t){return t.x>=this.min.x&&t.x<=this.max.x&&t.y>=this.min.y&&t.y<=this.max.y&&t.z>=this.min.z&&t.z<=this.max.z}containsBox(t){return this.min.x<=t.min.x&&t.max.x<=this.max.x&&this.min.y<=t.min.y&&t.max.y<=this.max.y&&this.min.z<=t.min.z&&t.max.z<=this.max.z}getParameter(t,e){return e.set((t.x-this.min.x)/(this.max.x-this.min.x),(t.y-this.min.y)/(this.max.y-this.min.y),(t.z-this.min.z)/(this.max.z-this.min.z))}intersectsBox(t){return t.max.x>=this.min.x&&t.min.x<=this.max.x&&t.max.y>=this.min.y&&t.min.y<=this.max.y&&t.max.z>=this.min.z&&t.min.z<=this.max.z}intersectsSphere(t){return this.clampPoint(t.center,Yn),Yn.distanceToSquared(t.center)<=t.radius*t.radius}intersectsPlane(t){let e,n;return t.normal.x>0?(e=t.normal.x*this.min.x,n=t.normal.x*this.max.x):(e=t.normal.x*this.max.x,n=t.normal.x*this.min.x),t.normal.y>0?(e+=t.normal.y*this.min.y,n+=t.normal.y*this.max.y):(e+=t.normal.y*this.max.y,n+=t.normal.y*this.min.y),t.normal.z>0?(e+=t.normal.z*this.min.z,n+=t.normal.z*this.max.z):(e+=t.normal.z*this.max.z,n+=t.normal.z*this.min.z),e<=-t.constant&&n>=-t.constant}intersectsTriangle(t){if(this.isEmpty())return!1;this.getCenter(Gr),Ra.subVectors(this.max,Gr),Fs.subVectors(t.a,Gr),ks.subVectors(t.b,Gr),Bs.subVectors(t.c,Gr),zi.subVectors(ks,Fs),Gi.subVectors(Bs,ks),is.subVectors(Fs,Bs);let e=[0,-zi.z,zi.y,0,-Gi.z,Gi.y,0,-is.z,is.y,zi.z,0,-zi.x,Gi.z,0,-Gi.x,is.z,0,-is.x,-zi.y,zi.x,0,-Gi.y,Gi.x,0,-is.y,is.x,0];return!Su(e,Fs,ks,Bs,Ra)||(e=[1,0,0,0,1,0,0,0,1],!Su(e,Fs,ks,Bs,Ra))?!1:(Ia.crossVectors(zi,Gi),e=[Ia.x,Ia.y,Ia.z],Su(e,Fs,ks,Bs,Ra))}clampPoint(t,e){return e.copy(t).clamp(this.min,this.max)}distanceToPoint(t){return this.clampPoint(t,Yn).distanceTo(t)}getBoundingSphere(t){return this.isEmpty()?t.makeEmpty():(this.getCenter(t.center),t.radius=this.getSize(Yn).length()*.5),t}intersect(t){return this.min.max(t.min),this.max.min(t.max),this.isEmpty()&&this.makeEmpty(),this}union(t){return this.min.min(t.min),this.max.max(t.max),this}applyMatrix4(t){return this.isEmpty()?this:(bi[0].set(this.min.x,this.min.y,this.min.z).applyMatrix4(t),bi[1].set(this.min.x,this.min.y,this.max.z).applyMatrix4(t),bi[2].set(this.min.x,this.max.y,this.min.z).applyMatrix4(t),bi[3].set(this.min.x,this.max.y,this.max.z).applyMatrix4(t),bi[4].set(this.max.x,this.min.y,this.min.z).applyMatrix4(t),bi[5].set(this.max.x,this.min.y,this.max.z).applyMatrix4(t),bi[6].set(this.max.x,this.max.y,this.min.z).applyMatrix4(t),bi[7].set(this.max.x,this.max.y,this.max.z).applyMatrix4(t),this.setFromPoints(bi),this)}translate(t){return this.min.add(t),this.max.add(t),this}equals(t){return t.min.equals(this.min)&&t.max.equals(this.max)}toJSON(){return{min:this.min.toArray(),max:this.max.toArray()}}fromJSON(t){return this.min.fromArray(t.min),this.max.fromArray(t.max),this}},bi=[new V,new V,new V,new V,new V,new V,new V,new V],Yn=new V,Ca=new $i,Fs=new V,ks=new V,Bs=new V,zi=new V,Gi=new V,is=new V,Gr=new V,Ra=new V,Ia=new V,ss=new V;function Su(i,t,e,n,s){for(let r=0,o=i.length-3;r<=o;r+=3){ss.fromArray(i,r);let a=s.x*Math.abs(ss.x)+s.y*Math.abs(ss.y)+s.z*Math.abs(ss.z),l=t.dot(ss),c=e.dot(ss),h=n.dot(ss);if(Math.max(-Math.max(l,c,h),Math.min(l,c,h))>a)return!1}return!0}var Re=new V,Pa=new ne,sS=0,qe=class extends ai{constructor(t,e,n=!1){if(super(),Array.isArray(t))throw new TypeError("THREE.BufferAttribute: array should be a Typed Array.");this.isBufferAttribute=!0,Object.defineProperty(this,"id",{value:sS++}),this.name="",this.array=t,this.itemSize=e,this.count=t!==void 0?t.length/e:0,this.normalized=n,this.usage=J0,this.updateRanges=[],this.gpuType=jn,this.version=0,this._normalizationScale=t!==void 0?ad(t):void 0}onUploadCallback(){}set needsUpdate(t){t===!0&&this.version++}setUsage(t){return this.usage=t,this}addUpdateRange(t,e){this.updateRanges.push({start:t,count:e})}clearUpdateRanges(){this.updateRanges.length=0}copy(t){return this.name=t.name,this.array=new t.array.constructor(t.array),this.itemSize=t.itemSize,this.count=t.count,this.normalized=t.normalized,this.usage=t.usage,this.gpuType=t.gpuType,this._normalizationScale=t._normalizationScale,this}copyAt(t,e,n){t*=this.itemSize,n*=e.itemSize;for(let s=0,r=this.itemSize;s<r;s++)this.array[t+s]=e.array[n+s];return this}copyArray(t){return this.array.set(t),this}applyMatrix3(t){if(this.itemSize===2)for(let e=0,n=this.count;e<n;e++)Pa.fromBufferAttribute(this,e),Pa.applyMatrix3(t),this.setXY(e,Pa.x,Pa.y);else if(this.itemSize===3)for(let e=0,n=this.count;e<n;e++)Re.fromBufferAttribute(this,e),Re.applyMatrix3(t),this.setXYZ(e,Re.x,Re.y,Re.z);return this}applyMatrix4(t){for(let e=0,n=this.count;e<n;e++)Re.fromBufferAttribute(this,e),Re.applyMatrix4(t),this.setXYZ(e,Re.x,Re.y,Re.z);return this}applyNormalMatrix(t){for(let e=0,n=this.count;e<n;e++)Re.fromBufferAttribute(this,e),Re.applyNormalMatrix(t),this.setXYZ(e,Re.x,Re.y,Re.z);return this}transformDirection(t){for(let e=0,n=this.count;e<n;e++)Re.fromBufferAttribute(this,e),Re.transformDirection(t),this.setXYZ(e,Re.x,Re.y,Re.z);return this}set(t,e=0){return this.array.set(t,e),this}getComponent(t,e){let n=this.array[t*this.itemSize+e];return this.normalized&&(n=this._denormalize(n)),n}setComponent(t,e,n){return this.normalized&&(n=this._normalize(n)),this.array[t*this.itemSize+e]=n,this}getX(t){let e=this.array[t*this.itemSize];return this.normalized&&(e=this._denormalize(e)),e}setX(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize]=e,this}getY(t){let e=this.array[t*this.itemSize+1];return this.normalized&&(e=this._denormalize(e)),e}setY(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+1]=e,this}getZ(t){let e=this.array[t*this.itemSize+2];return this.normalized&&(e=this._denormalize(e)),e}setZ(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+2]=e,this}getW(t){let e=this.array[t*this.itemSize+3];return this.normalized&&(e=this._denormalize(e)),e}setW(t,e){return this.normalized&&(e=this._normalize(e)),this.array[t*this.itemSize+3]=e,this}setXY(t,e,n){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n)),this.array[t+0]=e,this.array[t+1]=n,this}setXYZ(t,e,n,s){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n),s=this._normalize(s)),this.array[t+0]=e,this.array[t+1]=n,this.array[t+2]=s,this}setXYZW(t,e,n,s,r){return t*=this.itemSize,this.normalized&&(e=this._normalize(e),n=this._normalize(n),s=this._normalize(s),r=this._normalize(r)),this.array[t+0]=e,this.array[t+1]=n,this.array[t+2]=s,this.array[t+3]=r,this}onUpload(t){return this.onUploadCallback=t,this}clone(){return new this.constructor(this.array,this.itemSize).copy(this)}toJSON(){let t={itemSize:this.itemSize,type:this.array.constructor.name,array:Array.from(this.array),normalized:this.normalized};return t.name=this.name,t.usage=this.usage,t.gpuType=this.gpuType,t}dispose(){this.dispatchEvent({type:"dispose"})}_denormalize(t){let e=this._normalizationScale;return e!==void 0?Math.max(t/e,-1):$M(t,this.array)}_normalize(t){let e=this._normalizationScale;return e!==void 0?Math.round(t*e):qM(t,this.array)}};var Qr=class extends qe{constructor(t,e,n){super(new Uint16Array(t),e,n)}};var to=class extends qe{constructor(t,e,n){super(new Uint32Array(t),e,n)}};var Un=class extends qe{constructor(t,e,n){super(new Float32Array(t),e,n)}},rS=new $i,Vr=new V,bu=new V,Ys=class{constructor(t=new V,e=-1){this.isSphere=!0,this.center=t,this.radius=e}set(t,e){return this.center.copy(t),this.radius=e,this}setFromPoints(t,e){let n=this.center;e!==void 0?n.copy(e):rS.setFromPoints(t).getCenter(n);let s=0;for(let r=0,o=t.length;r<o;r++)s=Math.max(s,n.distanceToSquared(t[r]));return this.radius=Math.sqrt(s),this}copy(t){return this.center.copy(t.center),this.radius=t.radius,this}isEmpty(){return this.radius<0}makeEmpty(){return this.center.set(0,0,0),this.radius=-1,this}containsPoint(t){return t.distanceToSquared(this.center)<=this.radius*this.radius}distanceToPoint(t){return t.distanceTo(this.center)-this.radius}intersectsSphere(t){let e=this.radius+t.radius;return t.center.distanceToSquared(this.center)<=e*e}intersectsBox(t){return t.intersectsSphere(this)}intersectsPlane(t){return Math.abs(t.distanceToPoint(this.center))<=this.radius}clampPoint(t,e){let n=this.center.distanceToSquared(t);return e.copy(t),n>this.radius*this.radius&&(e.sub(this.center).normalize(),e.multiplyScalar(this.radius).add(this.center)),e}getBoundingBox(t){return this.isEmpty()?(t.makeEmpty(),t):(t.set(this.center,this.center),t.expandByScalar(this.radius),t)}applyMatrix4(t){return this.center.applyMatrix4(t),this.radius=this.radius*t.getMaxScaleOnAxis(),this}translate(t){return this.center.add(t),this}expandByPoint(t){if(this.isEmpty())return this.center.copy(t),this.radius=0,this;Vr.subVectors(t,this.center);let e=Vr.lengthSq();if(e>this.radius*this.radius){let n=Math.sqrt(e),s=(n-this.radius)*.5;this.center.addScaledVector(Vr,s/n),this.radius+=s}return this}union(t){return t.isEmpty()?this:this.isEmpty()?(this.copy(t),this):(this.center.equals(t.center)===!0?this.radius=Math.max(this.radius,t.radius):(bu.subVectors(t.center,this.center).setLength(t.radius),this.expandByPoint(Vr.copy(t.center).add(bu)),this.expandByPoint(Vr.copy(t.center).sub(bu))),this)}equals(t){return t.center.equals(this.center)&&t.radius===this.radius}clone(){return new this.constructor().copy(this)}toJSON(){return{radius:this.radius,center:this.center.toArray()}}fromJSON(t){return this.radius=t.radius,this.center.fromArray(t.center),this}},oS=0,Dn=new ye,wu=new Fn,zs=new V,_n=new $i,Hr=new $i,Be=new V,Zn=class i extends ai{constructor(){super(),this.isBufferGeometry=!0,Object.defineProperty(this,"id",{value:oS++}),this.uuid=_o(),this.name="",this.type="BufferGeometry",this.index=null,this.indirect=null,this.indirectOffset=0,this.attributes={},this.morphAttributes={},this.morphTargetsRelative=!1,this.groups=[],this.boundingBox=null,this.boundingSphere=null,this.drawRange={start:0,count:1/0},this.userData={},this._transformed=!1}getIndex(){return this.index}setIndex(t){return Array.isArray(t)?this.index=new(HM(t)?to:Qr)(t,1):this.index=t,this}setIndirect(t,e=0){return this.indirect=t,this.indirectOffset=e,this}getIndirect(){return this.indirect}getAttribute(t){return this.attributes[t]}setAttribute(t,e){return this.attributes[t]=e,this}deleteAttribute(t){return delete this.attributes[t],this}hasAttribute(t){return this.attributes[t]!==void 0}addGroup(t,e,n=0){this.groups.push({start:t,count:e,materialIndex:n})}clearGroups(){this.groups=[]}setDrawRange(t,e){this.drawRange.start=t,this.drawRange.count=e}applyMatrix4(t){let e=this.attributes.position;e!==void 0&&(e.applyMatrix4(t),e.needsUpdate=!0);let n=this.attributes.normal;if(n!==void 0){let r=new Bt().getNormalMatrix(t);n.applyNormalMatrix(r),n.needsUpdate=!0}let s=this.attributes.tangent;return s!==void 0&&(s.transformDirection(t),s.needsUpdate=!0),this.boundingBox!==null&&this.computeBoundingBox(),this.boundingSphere!==null&&this.computeBoundingSphere(),this._transformed=!0,this}applyQuaternion(t){return Dn.makeRotationFromQuaternion(t),this.applyMatrix4(Dn),this}rotateX(t){return Dn.makeRotationX(t),this.applyMatrix4(Dn),this}rotateY(t){return Dn.makeRotationY(t),this.applyMatrix4(Dn),this}rotateZ(t){return Dn.makeRotationZ(t),this.applyMatrix4(Dn),this}translate(t,e,n){return Dn.makeTranslation(t,e,n),this.applyMatrix4(Dn),this}scale(t,e,n){return Dn.makeScale(t,e,n),this.applyMatrix4(Dn),this}lookAt(t){return wu.lookAt(t),wu.updateMatrix(),this.applyMatrix4(wu.matrix),this}center(){return this.computeBoundingBox(),this.boundingBox.getCenter(zs).negate(),this.translate(zs.x,zs.y,zs.z),this}setFromPoints(t){let e=this.getAttribute("position");if(e===void 0){let n=[];for(let s=0,r=t.length;s<r;s++){let o=t[s];n.push(o.x,o.y,o.z||0)}this.setAttribute("position",new Un(n,3))}else{let n=Math.min(t.length,e.count);for(let s=0;s<n;s++){let r=t[s];e.setXYZ(s,r.x,r.y,r.z||0)}t.length>e.count&&Ut("BufferGeometry: Buffer size too small for points data. Use .dispose() and create a new geometry."),e.needsUpdate=!0}return this}computeBoundingBox(){this.boundingBox===null&&(this.boundingBox=new $i);let t=this.attributes.position,e=this.morphAttributes.position;if(t&&t.isGLBufferAttribute){Ft("BufferGeometry.computeBoundingBox(): GLBufferAttribute requires a manual bounding box.",this),this.boundingBox.set(new V(-1/0,-1/0,-1/0),new V(1/0,1/0,1/0));return}if(t!==void 0){if(this.boundingBox.setFromBufferAttribute(t),e)for(let n=0,s=e.length;n<s;n++){let r=e[n];_n.setFromBufferAttribute(r),this.morphTargetsRelative?(Be.addVectors(this.boundingBox.min,_n.min),this.boundingBox.expandByPoint(Be),Be.addVectors(this.boundingBox.max,_n.max),this.boundingBox.expandByPoint(Be)):(this.boundingBox.expandByPoint(_n.min),this.boundingBox.expandByPoint(_n.max))}}else this.boundingBox.makeEmpty();(isNaN(this.boundingBox.min.x)||isNaN(this.boundingBox.min.y)||isNaN(this.boundingBox.min.z))&&Ft('BufferGeometry.computeBoundingBox(): Computed min/max have NaN values. The "position" attribute is likely to have NaN values.',this)}computeBoundingSphere(){this.boundingSphere===null&&(this.boundingSphere=new Ys);let t=this.attributes.position,e=this.morphAttributes.position;if(t&&t.isGLBufferAttribute){Ft("BufferGeometry.computeBoundingSphere(): GLBufferAttribute requires a manual bounding sphere.",this),this.boundingSphere.set(new V,1/0);return}if(t){let n=this.boundingSphere.center;if(_n.setFromBufferAttribute(t),e)for(let r=0,o=e.length;r<o;r++){let a=e[r];Hr.setFromBufferAttribute(a),this.morphTargetsRelative?(Be.addVectors(_n.min,Hr.min),_n.expandByPoint(Be),Be.addVectors(_n.max,Hr.max),_n.expandByPoint(Be)):(_n.expandByPoint(Hr.min),_n.expandByPoint(Hr.max))}_n.getCenter(n);let s=0;for(let r=0,o=t.count;r<o;r++)Be.fromBufferAttribute(t,r),s=Math.max(s,n.distanceToSquared(Be));if(e)for(let r=0,o=e.length;r<o;r++){let a=e[r],l=this.morphTargetsRelative;for(let c=0,h=a.count;c<h;c++)Be.fromBufferAttribute(a,c),l&&(zs.fromBufferAttribute(t,c),Be.add(zs)),s=Math.max(s,n.distanceToSquared(Be))}this.boundingSphere.radius=Math.sqrt(s),isNaN(this.boundingSphere.radius)&&Ft('BufferGeometry.computeBoundingSphere(): Computed radius is NaN. The "position" attribute is likely to have NaN values.',this)}}computeTangents(){let t=this.index,e=this.attributes;if(t===null||e.position===void 0||e.normal===void 0||e.uv===void 0){Ft("BufferGeometry: .computeTangents() failed. Missing required attributes (index, position, normal or uv)");return}let n=e.position,s=e.normal,r=e.uv,o=this.getAttribute("tangent");(o===void 0||o.count!==n.count)&&(o=new qe(new Float32Array(4*n.count),4),this.setAttribute("tangent",o));let a=[],l=[],c=new Uint8Array(n.count);for(let B=0;B<n.count;B++)a[B]=new V,l[B]=new V;let h=new V,d=new V,u=new V,f=new ne,m=new ne,S=new ne,g=new V,_=new V;function b(B,N,O){c[B]=c[N]=c[O]=1,h.fromBufferAttribute(n,B),d.fromBufferAttribute(n,N),u.fromBufferAttribute(n,O),f.fromBufferAttribute(r,B),m.fromBufferAttribute(r,N),S.fromBufferAttribute(r,O),d.sub(h),u.sub(h),m.sub(f),S.sub(f);let z=1/(m.x*S.y-S.x*m.y);isFinite(z)&&(g.copy(d).multiplyScalar(S.y).addScaledVector(u,-m.y).multiplyScalar(z),_.copy(u).multiplyScalar(m.x).addScaledVector(d,-S.x).multiplyScalar(z),a[B].add(g),a[N].add(g),a[O].add(g),l[B].add(_),l[N].add(_),l[O].add(_))}let I=this.groups;I.length===0&&(I=[{start:0,count:t.count}]);for(let B=0,N=I.length;B<N;++B){let O=I[B],z=O.start,Y=O.count;for(let L=z,$=z+Y;L<$;L+=3)b(t.getX(L+0),t.getX(L+1),t.getX(L+2))}let A=new V,C=new V,E=new V,y=new V;function T(B){E.fromBufferAttribute(s,B),y.copy(E);let N=a[B];A.copy(N),A.sub(E.multiplyScalar(E.dot(N))).normalize(),C.crossVectors(y,N);let z=C.dot(l[B])<0?-1:1;o.setXYZW(B,A.x,A.y,A.z,z)}for(let B=0,N=n.count;B<N;++B)c[B]&&T(B);this._transformed=!0}computeVertexNormals(){let t=this.index,e=this.getAttribute("position");if(e!==void 0){let n=this.getAttribute("normal");if(n===void 0||n.count!==e.count)n=new qe(new Float32Array(e.count*3),3),this.setAttribute("normal",n);else for(let u=0,f=n.count;u<f;u++)n.setXYZ(u,0,0,0);let s=new V,r=new V,o=new V,a=new V,l=new V,c=new V,h=new V,d=new V;if(t)for(let u=0,f=t.count;u<f;u+=3){let m=t.getX(u+0),S=t.getX(u+1),g=t.getX(u+2);s.fromBufferAttribute(e,m),r.fromBufferAttribute(e,S),o.fromBufferAttribute(e,g),h.subVectors(o,r),d.subVectors(s,r),h.cross(d),a.fromBufferAttribute(n,m),l.fromBufferAttribute(n,S),c.fromBufferAttribute(n,g),a.add(h),l.add(h),c.add(h),n.setXYZ(m,a.x,a.y,a.z),n.setXYZ(S,l.x,l.y,l.z),n.setXYZ(g,c.x,c.y,c.z)}else for(let u=0,f=e.count;u<f;u+=3)s.fromBufferAttribute(e,u+0),r.fromBufferAttribute(e,u+1),o.fromBufferAttribute(e,u+2),h.subVectors(o,r),d.subVectors(s,r),h.cross(d),n.setXYZ(u+0,h.x,h.y,h.z),n.setXYZ(u+1,h.x,h.y,h.z),n.setXYZ(u+2,h.x,h.y,h.z);this.normalizeNormals(),n.needsUpdate=!0}}normalizeNormals(){let t=this.attributes.normal;for(let e=0,n=t.count;e<n;e++)Be.fromBufferAttribute(t,e),Be.normalize(),t.setXYZ(e,Be.x,Be.y,Be.z)}toNonIndexed(){function t(a,l){let c=a.array,h=a.itemSize,d=a.normalized,u=new c.constructor(l.length*h),f=0,m=0;for(let S=0,g=l.length;S<g;S++){a.isInterleavedBufferAttribute?f=l[S]*a.data.stride+a.offset:f=l[S]*h;for(let _=0;_<h;_++)u[m++]=c[f++]}return new qe(u,h,d)}if(this.index===null)return Ut("BufferGeometry.toNonIndexed(): BufferGeometry is already non-indexed."),this;let e=new i,n=this.index.array,s=this.attributes;for(let a in s){let l=s[a],c=t(l,n);e.setAttribute(a,c)}let r=this.morphAttributes;for(let a in r){let l=[],c=r[a];for(let h=0,d=c.length;h<d;h++){let u=c[h],f=t(u,n);l.push(f)}e.morphAttributes[a]=l}e.morphTargetsRelative=this.morphTargetsRelative;let o=this.groups;for(let a=0,l=o.length;a<l;a++){let c=o[a];e.addGroup(c.start,c.count,c.materialIndex)}return e}toJSON(){let t={metadata:{version:4.7,type:"BufferGeometry",generator:"BufferGeometry.toJSON"}};if(t.uuid=this.uuid,t.type=this.parameters!==void 0&&this._transformed===!0?"BufferGeometry":this.type,t.name=this.name,Object.keys(this.userData).length>0&&(t.userData=this.userData),this.parameters!==void 0&&this._transformed!==!0){let l=this.parameters;for(let c in l)l[c]!==void 0&&(t[c]=l[c]);return t}t.data={attributes:{}};let e=this.index;e!==null&&(t.data.index={type:e.array.constructor.name,array:Array.prototype.slice.call(e.array)});let n=this.attributes;for(let l in n){let c=n[l];t.data.attributes[l]=c.toJSON(t.data)}let s={},r=!1;for(let l in this.morphAttributes){let c=this.morphAttributes[l],h=[];for(let d=0,u=c.length;d<u;d++){let f=c[d];h.push(f.toJSON(t.data))}h.length>0&&(s[l]=h,r=!0)}r&&(t.data.morphAttributes=s,t.data.morphTargetsRelative=this.morphTargetsRelative);let o=this.groups;o.length>0&&(t.data.groups=JSON.parse(JSON.stringify(o)));let a=this.boundingSphere;return a!==null&&(t.data.boundingSphere=a.toJSON()),t}clone(){return new this.constructor().copy(this)}copy(t){this.index=null,this.attributes={},this.morphAttributes={},this.groups=[],this.boundingBox=null,this.boundingSphere=null;let e={};this.name=t.name;let n=t.index;n!==null&&this.setIndex(n.clone());let s=t.attributes;for(let c in s){let h=s[c];this.setAttribute(c,h.clone(e))}let r=t.morphAttributes;for(let c in r){let h=[],d=r[c];for(let u=0,f=d.length;u<f;u++)h.push(d[u].clone(e));this.morphAttributes[c]=h}this.morphTargetsRelative=t.morphTargetsRelative;let o=t.groups;for(let c=0,h=o.length;c<h;c++){let d=o[c];this.addGroup(d.start,d.count,d.materialIndex)}let a=t.boundingBox;a!==null&&(this.boundingBox=a.clone());let l=t.boundingSphere;return l!==null&&(this.boundingSphere=l.clone()),this.drawRange.start=t.drawRange.start,this.drawRange.count=t.drawRange.count,this.userData=t.userData,this._transformed=t._transformed,this}dispose(){this.dispatchEvent({type:"dispose"})}};var Tu=new V,aS=new V,lS=new Bt,Jn=class{constructor(t=new V(1,0,0),e=0){this.isPlane=!0,this.normal=t,this.constant=e}set(t,e){return this.normal.copy(t),this.constant=e,this}setComponents(t,e,n,s){return this.normal.set(t,e,n),this.constant=s,this}setFromNormalAndCoplanarPoint(t,e){return this.normal.copy(t),this.constant=-e.dot(this.normal),this}setFromCoplanarPoints(t,e,n){let s=Tu.subVectors(n,e).cross(aS.subVectors(t,e)).normalize();return this.setFromNormalAndCoplanarPoint(s,t),this}copy(t){return this.normal.copy(t.normal),this.constant=t.constant,this}normalize(){let t=1/this.normal.length();return this.normal.multiplyScalar(t),this.constant*=t,this}negate(){return this.constant*=-1,this.normal.negate(),this}distanceToPoint(t){return this.normal.dot(t)+this.constant}distanceToSphere(t){return this.distanceToPoint(t.center)-t.radius}projectPoint(t,e){return e.copy(t).addScaledVector(this.normal,-this.distanceToPoint(t))}intersectLine(t,e,n=!0){let s=t.delta(Tu),r=this.normal.dot(s);if(r===0)return this.distanceToPoint(t.start)===0?e.copy(t.start):null;let o=-(t.start.dot(this.normal)+this.constant)/r;return n===!0&&(o<0||o>1)?null:e.copy(t.start).addScaledVector(s,o)}intersectsLine(t){let e=this.distanceToPoint(t.start),n=this.distanceToPoint(t.end);return e<0&&n>0||n<0&&e>0}intersectsBox(t){return t.intersectsPlane(this)}intersectsSphere(t){return t.intersectsPlane(this)}coplanarPoint(t){return t.copy(this.normal).multiplyScalar(-this.constant)}applyMatrix4(t,e){let n=e||lS.getNormalMatrix(t),s=this.coplanarPoint(Tu).applyMatrix4(t),r=this.normal.applyMatrix3(n).normalize();return this.constant=-s.dot(r),this}translate(t){return this.constant-=t.dot(this.normal),this}equals(t){return t.normal.equals(this.normal)&&t.constant===this.constant}clone(){return new this.constructor().copy(this)}toJSON(){return{normal:this.normal.toArray(),constant:this.constant}}fromJSON(t){return this.normal.fromArray(t.normal),this.constant=t.constant,this}},cS=0,ls=class extends ai{constructor(){super(),this.isMaterial=!0,Object.defineProperty(this,"id",{value:cS++}),this.uuid=_o(),this.name="",this.type="Material",this.blending=er,this.side=hi,this.vertexColors=!1,this.opacity=1,this.transparent=!1,this.alphaHash=!1,this.blendSrc=ku,this.blendDst=Bu,this.blendEquation=us,this.blendSrcAlpha=null,this.blendDstAlpha=null,this.blendEquationAlpha=null,this.blendColor=new ee(0,0,0),this.blendAlpha=0,this.depthFunc=Wi,this.depthTest=!0,this.depthWrite=!0,this.stencilWriteMask=255,this.stencilFunc=H0,this.stencilRef=0,this.stencilFuncMask=255,this.stencilFail=$a,this.stencilZFail=$a,this.stencilZPass=$a,this.stencilWrite=!1,this.clippingPlanes=null,this.clipIntersection=!1,this.clipShadows=!1,this.shadowSide=null,this.colorWrite=!0,this.precision=null,this.polygonOffset=!1,this.polygonOffsetFactor=0,this.polygonOffsetUnits=0,this.dithering=!1,this.alphaToCoverage=!1,this.premultipliedAlpha=!1,this.forceSinglePass=!1,this.allowOverride=!0,this.visible=!0,this.toneMapped=!0,this.userData={},this.version=0,this._alphaTest=0}get alphaTest(){return this._alphaTest}set alphaTest(t){this._alphaTest>0!=t>0&&this.version++,this._alphaTest=t}onBeforeRender(){}onBeforeCompile(){}customProgramCacheKey(){return this.onBeforeCompile.toString()}setValues(t){if(t!==void 0)for(let e in t){let n=t[e];if(n===void 0){Ut(`Material: parameter '${e}' has value of undefined.`);continue}let s=this[e];if(s===void 0){Ut(`Material: '${e}' is not a property of THREE.${this.type}.`);continue}s&&s.isColor?s.set(n):s&&s.isVector2&&n&&n.isVector2||s&&s.isEuler&&n&&n.isEuler||s&&s.isVector3&&n&&n.isVector3?s.copy(n):this[e]=n}}toJSON(t){let e=t===void 0||typeof t=="string";e&&(t={textures:{},images:{}});let n={metadata:{version:4.7,type:"Material",generator:"Material.toJSON"}};n.uuid=this.uuid,n.type=this.type,n.blending=this.blending,n.side=this.side,n.shadowSide=this.shadowSide,n.vertexColors=this.vertexColors,n.opacity=this.opacity,n.transparent=this.transparent,n.blendSrc=this.blendSrc,n.blendDst=this.blendDst,n.blendEquation=this.blendEquation,n.blendSrcAlpha=this.blendSrcAlpha,n.blendDstAlpha=this.blendDstAlpha,n.blendEquationAlpha=this.blendEquationAlpha,n.blendColor=this.blendColor.getHex(),n.blendAlpha=this.blendAlpha,n.depthFunc=this.depthFunc,n.depthTest=this.depthTest,n.depthWrite=this.depthWrite,n.colorWrite=this.colorWrite,n.clipIntersection=this.clipIntersection,n.clipShadows=this.clipShadows,n.stencilWriteMask=this.stencilWriteMask,n.stencilFunc=this.stencilFunc,n.stencilRef=this.stencilRef,n.stencilFuncMask=this.stencilFuncMask,n.stencilFail=this.stencilFail,n.stencilZFail=this.stencilZFail,n.stencilZPass=this.stencilZPass,n.stencilWrite=this.stencilWrite,n.polygonOffset=this.polygonOffset,n.polygonOffsetFactor=this.polygonOffsetFactor,n.polygonOffsetUnits=this.polygonOffsetUnits,n.dithering=this.dithering,n.alphaTest=this.alphaTest,n.alphaHash=this.alphaHash,n.alphaToCoverage=this.alphaToCoverage,n.premultipliedAlpha=this.premultipliedAlpha,n.forceSinglePass=this.forceSinglePass,n.allowOverride=this.allowOverride,n.visible=this.visible,n.toneMapped=this.toneMapped,n.name=this.name,this.color&&this.color.isColor&&(n.color=this.color.getHex()),this.roughness!==void 0&&(n.roughness=this.roughness),this.metalness!==void 0&&(n.metalness=this.metalness),this.sheen!==void 0&&(n.sheen=this.sheen),this.sheenColor&&this.sheenColor.isColor&&(n.sheenColor=this.sheenColor.getHex()),this.sheenRoughness!==void 0&&(n.sheenRoughness=this.sheenRoughness),this.emissive&&this.emissive.isColor&&(n.emissive=this.emissive.getHex()),this.emissiveIntensity!==void 0&&(n.emissiveIntensity=this.emissiveIntensity),this.specular&&this.specular.isColor&&(n.specular=this.specular.getHex()),this.specularIntensity!==void 0&&(n.specularIntensity=this.specularIntensity),this.specularColor&&this.specularColor.isColor&&(n.specularColor=this.specularColor.getHex()),this.shininess!==void 0&&(n.shininess=this.shininess),this.clearcoat!==void 0&&(n.clearcoat=this.clearcoat),this.clearcoatRoughness!==void 0&&(n.clearcoatRoughness=this.clearcoatRoughness),this.diffuseRoughness!==void 0&&(n.diffuseRoughness=this.diffuseRoughness),this.diffuseRoughnessMap&&this.diffuseRoughnessMap.isTexture&&(n.diffuseRoughnessMap=this.diffuseRoughnessMap.toJSON(t).uuid),this.clearcoatMap&&this.clearcoatMap.isTexture&&(n.clearcoatMap=this.clearcoatMap.toJSON(t).uuid),this.clearcoatRoughnessMap&&this.clearcoatRoughnessMap.isTexture&&(n.clearcoatRoughnessMap=this.clearcoatRoughnessMap.toJSON(t).uuid),this.clearcoatNormalMap&&this.clearcoatNormalMap.isTexture&&(n.clearcoatNormalMap=this.clearcoatNormalMap.toJSON(t).uuid,n.clearcoatNormalScale=this.clearcoatNormalScale.toArray()),this.sheenColorMap&&this.sheenColorMap.isTexture&&(n.sheenColorMap=this.sheenColorMap.toJSON(t).uuid),this.sheenRoughnessMap&&this.sheenRoughnessMap.isTexture&&(n.sheenRoughnessMap=this.sheenRoughnessMap.toJSON(t).uuid),this.dispersion!==void 0&&(n.dispersion=this.dispersion),this.retroreflectivity!==void 0&&(n.retroreflectivity=this.retroreflectivity),this.iridescence!==void 0&&(n.iridescence=this.iridescence),this.iridescenceIOR!==void 0&&(n.iridescenceIOR=this.iridescenceIOR),this.iridescenceThicknessMinimum!==void 0&&(n.iridescenceThicknessMinimum=this.iridescenceThicknessMinimum),this.iridescenceThicknessMaximum!==void 0&&(n.iridescenceThicknessMaximum=this.iridescenceThicknessMaximum),this.iridescenceMap&&this.iridescenceMap.isTexture&&(n.iridescenceMap=this.iridescenceMap.toJSON(t).uuid),this.iridescenceThicknessMap&&this.iridescenceThicknessMap.isTexture&&(n.iridescenceThicknessMap=this.iridescenceThicknessMap.toJSON(t).uuid),this.anisotropy!==void 0&&(n.anisotropy=this.anisotropy),this.anisotropyRotation!==void 0&&(n.anisotropyRotation=this.anisotropyRotation),this.anisotropyMap&&this.anisotropyMap.isTexture&&(n.anisotropyMap=this.anisotropyMap.toJSON(t).uuid),this.map&&this.map.isTexture&&(n.map=this.map.toJSON(t).uuid),this.matcap&&this.matcap.isTexture&&(n.matcap=this.matcap.toJSON(t).uuid),this.alphaMap&&this.alphaMap.isTexture&&(n.alphaMap=this.alphaMap.toJSON(t).uuid),this.lightMap&&this.lightMap.isTexture&&(n.lightMap=this.lightMap.toJSON(t).uuid,n.lightMapIntensity=this.lightMapIntensity),this.aoMap&&this.aoMap.isTexture&&(n.aoMap=this.aoMap.toJSON(t).uuid,n.aoMapIntensity=this.aoMapIntensity),this.bumpMap&&this.bumpMap.isTexture&&(n.bumpMap=this.bumpMap.toJSON(t).uuid,n.bumpScale=this.bumpScale),this.normalMap&&this.normalMap.isTexture&&(n.normalMap=this.normalMap.toJSON(t).uuid,n.normalMapType=this.normalMapType,n.normalScale=this.normalScale.toArray()),this.displacementMap&&this.displacementMap.isTexture&&(n.displacementMap=this.displacementMap.toJSON(t).uuid,n.displacementScale=this.displacementScale,n.displacementBias=this.displacementBias),this.roughnessMap&&this.roughnessMap.isTexture&&(n.roughnessMap=this.roughnessMap.toJSON(t).uuid),this.metalnessMap&&this.metalnessMap.isTexture&&(n.metalnessMap=this.metalnessMap.toJSON(t).uuid),this.emissiveMap&&this.emissiveMap.isTexture&&(n.emissiveMap=this.emissiveMap.toJSON(t).uuid),this.specularMap&&this.specularMap.isTexture&&(n.specularMap=this.specularMap.toJSON(t).uuid),this.specularIntensityMap&&this.specularIntensityMap.isTexture&&(n.specularIntensityMap=this.specularIntensityMap.toJSON(t).uuid),this.specularColorMap&&this.specularColorMap.isTexture&&(n.specularColorMap=this.specularColorMap.toJSON(t).uuid),this.envMap&&this.envMap.isTexture&&(n.envMap=this.envMap.toJSON(t).uuid,this.combine!==void 0&&(n.combine=this.combine)),this.envMapRotation!==void 0&&(n.envMapRotation=this.envMapRotation.toArray()),this.envMapIntensity!==void 0&&(n.envMapIntensity=this.envMapIntensity),this.reflectivity!==void 0&&(n.reflectivity=this.reflectivity),this.refractionRatio!==void 0&&(n.refractionRatio=this.refractionRatio),this.gradientMap&&this.gradientMap.isTexture&&(n.gradientMap=this.gradientMap.toJSON(t).uuid),this.transmission!==void 0&&(n.transmission=this.transmission),this.transmissionMap&&this.transmissionMap.isTexture&&(n.transmissionMap=this.transmissionMap.toJSON(t).uuid),this.thickness!==void 0&&(n.thickness=this.thickness),this.thicknessMap&&this.thicknessMap.isTexture&&(n.thicknessMap=this.thicknessMap.toJSON(t).uuid),this.attenuationDistance!==void 0&&(n.attenuationDistance=this.attenuationDistance),this.attenuationColor!==void 0&&(n.attenuationColor=this.attenuationColor.getHex()),this.size!==void 0&&(n.size=this.size),this.sizeAttenuation!==void 0&&(n.sizeAttenuation=this.sizeAttenuation),Array.isArray(this.clippingPlanes)&&this.clippingPlanes.length>0&&(n.clippingPlanes=this.clippingPlanes.map(r=>r.toJSON())),this.rotation!==void 0&&(n.rotation=this.rotation),this.depthPacking!==void 0&&(n.depthPacking=this.depthPacking),this.linewidth!==void 0&&(n.linewidth=this.linewidth),this.linecap!==void 0&&(n.linecap=this.linecap),this.linejoin!==void 0&&(n.linejoin=this.linejoin),this.dashSize!==void 0&&(n.dashSize=this.dashSize),this.gapSize!==void 0&&(n.gapSize=this.gapSize),this.scale!==void 0&&(n.scale=this.scale),this.wireframe!==void 0&&(n.wireframe=this.wireframe),this.wireframeLinewidth!==void 0&&(n.wireframeLinewidth=this.wireframeLinewidth),this.wireframeLinecap!==void 0&&(n.wireframeLinecap=this.wireframeLinecap),this.wireframeLinejoin!==void 0&&(n.wireframeLinejoin=this.wireframeLinejoin),this.flatShading!==void 0&&(n.flatShading=this.flatShading),this.fog!==void 0&&(n.fog=this.fog),Object.keys(this.userData).length>0&&(n.userData=this.userData);function s(r){let o=[];for(let a in r){let l=r[a];delete l.metadata,o.push(l)}return o}if(e){let r=s(t.textures),o=s(t.images);r.length>0&&(n.textures=r),o.length>0&&(n.images=o)}return n}fromJSON(t,e){if(t.uuid!==void 0&&(this.uuid=t.uuid),t.name!==void 0&&(this.name=t.name),t.color!==void 0&&this.color!==void 0&&this.color.setHex(t.color),t.roughness!==void 0&&(this.roughness=t.roughness),t.metalness!==void 0&&(this.metalness=t.metalness),t.sheen!==void 0&&(this.sheen=t.sheen),t.sheenColor!==void 0&&(this.sheenColor=new ee().setHex(t.sheenColor)),t.sheenRoughness!==void 0&&(this.sheenRoughness=t.sheenRoughness),t.emissive!==void 0&&this.emissive!==void 0&&this.emissive.setHex(t.emissive),t.specular!==void 0&&this.specular!==void 0&&this.specular.setHex(t.specular),t.specularIntensity!==void 0&&(this.specularIntensity=t.specularIntensity),t.specularColor!==void 0&&this.specularColor!==void 0&&this.specularColor.setHex(t.specularColor),t.shininess!==void 0&&(this.shininess=t.shininess),t.clearcoat!==void 0&&(this.clearcoat=t.clearcoat),t.clearcoatRoughness!==void 0&&(this.clearcoatRoughness=t.clearcoatRoughness),t.diffuseRoughness!==void 0&&(this.diffuseRoughness=t.diffuseRoughness),t.dispersion!==void 0&&(this.dispersion=t.dispersion),t.retroreflectivity!==void 0&&(this.retroreflectivity=t.retroreflectivity),t.iridescence!==void 0&&(this.iridescence=t.iridescence),t.iridescenceIOR!==void 0&&(this.iridescenceIOR=t.iridescenceIOR),t.iridescenceThicknessMinimum!==void 0&&(this.iridescenceThicknessMinimum=t.iridescenceThicknessMinimum),t.iridescenceThicknessMaximum!==void 0&&(this.iridescenceThicknessMaximum=t.iridescenceThicknessMaximum),t.iridescenceThicknessRange!==void 0&&(this.iridescenceThicknessMinimum=t.iridescenceThicknessRange[0],this.iridescenceThicknessMaximum=t.iridescenceThicknessRange[1]),t.transmission!==void 0&&(this.transmission=t.transmission),t.thickness!==void 0&&(this.thickness=t.thickness),t.attenuationDistance!==void 0&&(this.attenuationDistance=t.attenuationDistance),t.attenuationColor!==void 0&&this.attenuationColor!==void 0&&this.attenuationColor.setHex(t.attenuationColor),t.anisotropy!==void 0&&(this.anisotropy=t.anisotropy),t.anisotropyRotation!==void 0&&(this.anisotropyRotation=t.anisotropyRotation),t.fog!==void 0&&(this.fog=t.fog),t.flatShading!==void 0&&(this.flatShading=t.flatShading),t.blending!==void 0&&(this.blending=t.blending),t.combine!==void 0&&(this.combine=t.combine),t.side!==void 0&&(this.side=t.side),t.shadowSide!==void 0&&(this.shadowSide=t.shadowSide),t.opacity!==void 0&&(this.opacity=t.opacity),t.transparent!==void 0&&(this.transparent=t.transparent),t.alphaTest!==void 0&&(this.alphaTest=t.alphaTest),t.alphaHash!==void 0&&(this.alphaHash=t.alphaHash),t.depthFunc!==void 0&&(this.depthFunc=t.depthFunc),t.depthTest!==void 0&&(this.depthTest=t.depthTest),t.depthWrite!==void 0&&(this.depthWrite=t.depthWrite),t.colorWrite!==void 0&&(this.colorWrite=t.colorWrite),t.clippingPlanes!==void 0&&(this.clippingPlanes=t.clippingPlanes.map(n=>new Jn().fromJSON(n))),t.clipIntersection!==void 0&&(this.clipIntersection=t.clipIntersection),t.clipShadows!==void 0&&(this.clipShadows=t.clipShadows),t.depthPacking!==void 0&&(this.depthPacking=t.depthPacking),t.blendSrc!==void 0&&(this.blendSrc=t.blendSrc),t.blendDst!==void 0&&(this.blendDst=t.blendDst),t.blendEquation!==void 0&&(this.blendEquation=t.blendEquation),t.blendSrcAlpha!==void 0&&(this.blendSrcAlpha=t.blendSrcAlpha),t.blendDstAlpha!==void 0&&(this.blendDstAlpha=t.blendDstAlpha),t.blendEquationAlpha!==void 0&&(this.blendEquationAlpha=t.blendEquationAlpha),t.blendColor!==void 0&&this.blendColor!==void 0&&this.blendColor.setHex(t.blendColor),t.blendAlpha!==void 0&&(this.blendAlpha=t.blendAlpha),t.stencilWriteMask!==void 0&&(this.stencilWriteMask=t.stencilWriteMask),t.stencilFunc!==void 0&&(this.stencilFunc=t.stencilFunc),t.stencilRef!==void 0&&(this.stencilRef=t.stencilRef),t.stencilFuncMask!==void 0&&(this.stencilFuncMask=t.stencilFuncMask),t.stencilFail!==void 0&&(this.stencilFail=t.stencilFail),t.stencilZFail!==void 0&&(this.stencilZFail=t.stencilZFail),t.stencilZPass!==void 0&&(this.stencilZPass=t.stencilZPass),t.stencilWrite!==void 0&&(this.stencilWrite=t.stencilWrite),t.wireframe!==void 0&&(this.wireframe=t.wireframe),t.wireframeLinewidth!==void 0&&(this.wireframeLinewidth=t.wireframeLinewidth),t.wireframeLinecap!==void 0&&(this.wireframeLinecap=t.wireframeLinecap),t.wireframeLinejoin!==void 0&&(this.wireframeLinejoin=t.wireframeLinejoin),t.rotation!==void 0&&(this.rotation=t.rotation),t.linewidth!==void 0&&(this.linewidth=t.linewidth),t.linecap!==void 0&&(this.linecap=t.linecap),t.linejoin!==void 0&&(this.linejoin=t.linejoin),t.dashSize!==void 0&&(this.dashSize=t.dashSize),t.gapSize!==void 0&&(this.gapSize=t.gapSize),t.scale!==void 0&&(this.scale=t.scale),t.polygonOffset!==void 0&&(this.polygonOffset=t.polygonOffset),t.polygonOffsetFactor!==void 0&&(this.polygonOffsetFactor=t.polygonOffsetFactor),t.polygonOffsetUnits!==void 0&&(this.polygonOffsetUnits=t.polygonOffsetUnits),t.dithering!==void 0&&(this.dithering=t.dithering),t.alphaToCoverage!==void 0&&(this.alphaToCoverage=t.alphaToCoverage),t.premultipliedAlpha!==void 0&&(this.premultipliedAlpha=t.premultipliedAlpha),t.forceSinglePass!==void 0&&(this.forceSinglePass=t.forceSinglePass),t.allowOverride!==void 0&&(this.allowOverride=t.allowOverride),t.visible!==void 0&&(this.visible=t.visible),t.toneMapped!==void 0&&(this.toneMapped=t.toneMapped),t.userData!==void 0&&(this.userData=t.userData),t.vertexColors!==void 0&&(typeof t.vertexColors=="number"?this.vertexColors=t.vertexColors>0:this.vertexColors=t.vertexColors),t.size!==void 0&&(this.size=t.size),t.sizeAttenuation!==void 0&&(this.sizeAttenuation=t.sizeAttenuation),t.map!==void 0&&(this.map=e[t.map]||null),t.matcap!==void 0&&(this.matcap=e[t.matcap]||null),t.alphaMap!==void 0&&(this.alphaMap=e[t.alphaMap]||null),t.bumpMap!==void 0&&(this.bumpMap=e[t.bumpMap]||null),t.bumpScale!==void 0&&(this.bumpScale=t.bumpScale),t.normalMap!==void 0&&(this.normalMap=e[t.normalMap]||null),t.normalMapType!==void 0&&(this.normalMapType=t.normalMapType),t.normalScale!==void 0){let n=t.normalScale;Array.isArray(n)===!1&&(n=[n,n]),this.normalScale=new ne().fromArray(n)}return t.displacementMap!==void 0&&(this.displacementMap=e[t.displacementMap]||null),t.displacementScale!==void 0&&(this.displacementScale=t.displacementScale),t.displacementBias!==void 0&&(this.displacementBias=t.displacementBias),t.roughnessMap!==void 0&&(this.roughnessMap=e[t.roughnessMap]||null),t.metalnessMap!==void 0&&(this.metalnessMap=e[t.metalnessMap]||null),t.emissiveMap!==void 0&&(this.emissiveMap=e[t.emissiveMap]||null),t.emissiveIntensity!==void 0&&(this.emissiveIntensity=t.emissiveIntensity),t.specularMap!==void 0&&(this.specularMap=e[t.specularMap]||null),t.specularIntensityMap!==void 0&&(this.specularIntensityMap=e[t.specularIntensityMap]||null),t.specularColorMap!==void 0&&(this.specularColorMap=e[t.specularColorMap]||null),t.envMap!==void 0&&(this.envMap=e[t.envMap]||null),t.envMapRotation!==void 0&&this.envMapRotation.fromArray(t.envMapRotation),t.envMapIntensity!==void 0&&(this.envMapIntensity=t.envMapIntensity),t.reflectivity!==void 0&&(this.reflectivity=t.reflectivity),t.refractionRatio!==void 0&&(this.refractionRatio=t.refractionRatio),t.lightMap!==void 0&&(this.lightMap=e[t.lightMap]||null),t.lightMapIntensity!==void 0&&(this.lightMapIntensity=t.lightMapIntensity),t.aoMap!==void 0&&(this.aoMap=e[t.aoMap]||null),t.aoMapIntensity!==void 0&&(this.aoMapIntensity=t.aoMapIntensity),t.gradientMap!==void 0&&(this.gradientMap=e[t.gradientMap]||null),t.clearcoatMap!==void 0&&(this.clearcoatMap=e[t.clearcoatMap]||null),t.clearcoatRoughnessMap!==void 0&&(this.clearcoatRoughnessMap=e[t.clearcoatRoughnessMap]||null),t.clearcoatNormalMap!==void 0&&(this.clearcoatNormalMap=e[t.clearcoatNormalMap]||null),t.clearcoatNormalScale!==void 0&&(this.clearcoatNormalScale=new ne().fromArray(t.clearcoatNormalScale)),t.diffuseRoughnessMap!==void 0&&(this.diffuseRoughnessMap=e[t.diffuseRoughnessMap]||null),t.iridescenceMap!==void 0&&(this.iridescenceMap=e[t.iridescenceMap]||null),t.iridescenceThicknessMap!==void 0&&(this.iridescenceThicknessMap=e[t.iridescenceThicknessMap]||null),t.transmissionMap!==void 0&&(this.transmissionMap=e[t.transmissionMap]||null),t.thicknessMap!==void 0&&(this.thicknessMap=e[t.thicknessMap]||null),t.anisotropyMap!==void 0&&(this.anisotropyMap=e[t.anisotropyMap]||null),t.sheenColorMap!==void 0&&(this.sheenColorMap=e[t.sheenColorMap]||null),t.sheenRoughnessMap!==void 0&&(this.sheenRoughnessMap=e[t.sheenRoughnessMap]||null),this}clone(){return new this.constructor().copy(this)}copy(t){this.name=t.name,this.blending=t.blending,this.side=t.side,this.vertexColors=t.vertexColors,this.opacity=t.opacity,this.transparent=t.transparent,this.blendSrc=t.blendSrc,this.blendDst=t.blendDst,this.blendEquation=t.blendEquation,this.blendSrcAlpha=t.blendSrcAlpha,this.blendDstAlpha=t.blendDstAlpha,this.blendEquationAlpha=t.blendEquationAlpha,this.blendColor.copy(t.blendColor),this.blendAlpha=t.blendAlpha,this.depthFunc=t.depthFunc,this.depthTest=t.depthTest,this.depthWrite=t.depthWrite,this.stencilWriteMask=t.stencilWriteMask,this.stencilFunc=t.stencilFunc,this.stencilRef=t.stencilRef,this.stencilFuncMask=t.stencilFuncMask,this.stencilFail=t.stencilFail,this.stencilZFail=t.stencilZFail,this.stencilZPass=t.stencilZPass,this.stencilWrite=t.stencilWrite;let e=t.clippingPlanes,n=null;if(e!==null){let s=e.length;n=new Array(s);for(let r=0;r!==s;++r)n[r]=e[r].clone()}return this.clippingPlanes=n,this.clipIntersection=t.clipIntersection,this.clipShadows=t.clipShadows,this.shadowSide=t.shadowSide,this.colorWrite=t.colorWrite,this.precision=t.precision,this.polygonOffset=t.polygonOffset,this.polygonOffsetFactor=t.polygonOffsetFactor,this.polygonOffsetUnits=t.polygonOffsetUnits,this.dithering=t.dithering,this.alphaTest=t.alphaTest,this.alphaHash=t.alphaHash,this.alphaToCoverage=t.alphaToCoverage,this.premultipliedAlpha=t.premultipliedAlpha,this.forceSinglePass=t.forceSinglePass,this.allowOverride=t.allowOverride,this.visible=t.visible,this.toneMapped=t.toneMapped,this.userData=JSON.parse(JSON.stringify(t.userData)),this}dispose(){this.dispatchEvent({type:"dispose"})}set needsUpdate(t){t===!0&&this.version++}};var wi=new V,Au=new V,La=new V,Na=new V,al=class{constructor(t=new V,e=new V(0,0,-1)){this.origin=t,this.direction=e}set(t,e){return this.origin.copy(t),this.direction.copy(e),this}copy(t){return this.origin.copy(t.origin),this.direction.copy(t.direction),this}at(t,e){return e.copy(this.origin).addScaledVector(this.direction,t)}lookAt(t){return this.direction.copy(t).sub(this.origin).normalize(),this}recast(t){return this.origin.copy(this.at(t,wi)),this}closestPointToPoint(t,e){e.subVectors(t,this.origin);let n=e.dot(this.direction);return n<0?e.copy(this.origin):e.copy(this.origin).addScaledVector(this.direction,n)}distanceToPoint(t){return Math.sqrt(this.distanceSqToPoint(t))}distanceSqToPoint(t){let e=wi.subVectors(t,this.origin).dot(this.direction);return e<0?this.origin.distanceToSquared(t):(wi.copy(this.origin).addScaledVector(this.direction,e),wi.distanceToSquared(t))}distanceSqToSegment(t,e,n,s){Au.copy(t).add(e).multiplyScalar(.5),La.copy(e).sub(t).normalize(),Na.copy(this.origin).sub(Au);let r=t.distanceTo(e)*.5,o=-this.direction.dot(La),a=Na.dot(this.direction),l=-Na.dot(La),c=Na.lengthSq(),h=Math.abs(1-o*o),d,u,f,m;if(h>0)if(d=o*l-a,u=o*a-l,m=r*h,d>=0)if(u>=-m)if(u<=m){let S=1/h;d*=S,u*=S,f=d*(d+o*u+2*a)+u*(o*d+u+2*l)+c}else u=r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;else u=-r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;else u<=-m?(d=Math.max(0,-(-o*r+a)),u=d>0?-r:Math.min(Math.max(-r,-l),r),f=-d*d+u*(u+2*l)+c):u<=m?(d=0,u=Math.min(Math.max(-r,-l),r),f=u*(u+2*l)+c):(d=Math.max(0,-(o*r+a)),u=d>0?r:Math.min(Math.max(-r,-l),r),f=-d*d+u*(u+2*l)+c);else u=o>0?-r:r,d=Math.max(0,-(o*u+a)),f=-d*d+u*(u+2*l)+c;return n&&n.copy(this.origin).addScaledVector(this.direction,d),s&&s.copy(Au).addScaledVector(La,u),f}intersectSphere(t,e){if(t.radius<0)return null;wi.subVectors(t.center,this.origin);let n=wi.dot(this.direction),s=wi.dot(wi)-n*n,r=t.radius*t.radius;if(s>r)return null;let o=Math.sqrt(r-s),a=n-o,l=n+o;return l<0?null:a<0?this.at(l,e):this.at(a,e)}intersectsSphere(t){return t.radius<0?!1:this.distanceSqToPoint(t.center)<=t.radius*t.radius}distanceToPlane(t){let e=t.normal.dot(this.direction);if(e===0)return t.distanceToPoint(this.origin)===0?0:null;let n=-(this.origin.dot(t.normal)+t.constant)/e;return n>=0?n:null}intersectPlane(t,e){let n=this.distanceToPlane(t);return n===null?null:this.at(n,e)}intersectsPlane(t){let e=t.distanceToPoint(this.origin);return e===0||t.normal.dot(this.direction)*e<0}intersectBox(t,e){let n,s,r,o,a,l,c=1/this.direction.x,h=1/this.direction.y,d=1/this.direction.z,u=this.origin;return c>=0?(n=(t.min.x-u.x)*c,s=(t.max.x-u.x)*c):(n=(t.max.x-u.x)*c,s=(t.min.x-u.x)*c),h>=0?(r=(t.min.y-u.y)*h,o=(t.max.y-u.y)*h):(r=(t.max.y-u.y)*h,o=(t.min.y-u.y)*h),n>o||r>s||((r>n||isNaN(n))&&(n=r),(o<s||isNaN(s))&&(s=o),d>=0?(a=(t.min.z-u.z)*d,l=(t.max.z-u.z)*d):(a=(t.max.z-u.z)*d,l=(t.min.z-u.z)*d),n>l||a>s)||((a>n||n!==n)&&(n=a),(l<s||s!==s)&&(s=l),s<0)?null:this.at(n>=0?n:s,e)}intersectsBox(t){return this.intersectBox(t,wi)!==null}intersectTriangle(t,e,n,s,r){let o=this.origin,a=this.direction,l=a.x,c=a.y,h=a.z,d=t.x-o.x,u=t.y-o.y,f=t.z-o.z,m=e.x-o.x,S=e.y-o.y,g=e.z-o.z,_=n.x-o.x,b=n.y-o.y,I=n.z-o.z,A=Math.abs(l),C=Math.abs(c),E=Math.abs(h),y,T,B,N,O,z,Y,L,$,j,H,rt;if(A>=C&&A>=E?(B=l,z=d,$=m,rt=_,l>=0?(y=c,T=h,N=u,O=f,Y=S,L=g,j=b,H=I):(y=h,T=c,N=f,O=u,Y=g,L=S,j=I,H=b)):C>=E?(B=c,z=u,$=S,rt=b,c>=0?(y=h,T=l,N=f,O=d,Y=g,L=m,j=I,H=_):(y=l,T=h,N=d,O=f,Y=m,L=g,j=_,H=I)):(B=h,z=f,$=g,rt=I,h>=0?(y=l,T=c,N=d,O=u,Y=m,L=S,j=_,H=b):(y=c,T=l,N=u,O=d,Y=S,L=m,j=b,H=_)),B===0)return null;let X=y/B,tt=T/B,et=1/B,Et=N-X*z,Gt=O-tt*z,Z=Y-X*$,yt=L-tt*$,wt=j-X*rt,Nt=H-tt*rt,Mt=wt*yt-Nt*Z,Ht=Et*Nt-Gt*wt,we=Z*Gt-yt*Et;if(s){if(Mt<0||Ht<0||we<0)return null}else if((Mt<0||Ht<0||we<0)&&(Mt>0||Ht>0||we>0))return null;let Ot=Mt+Ht+we;if(Ot===0)return null;let re=et*(Mt*z+Ht*$+we*rt);return(Ot>0?re<0:re>0)?null:this.at(re/Ot,r)}applyMatrix4(t){return this.origin.applyMatrix4(t),this.direction.transformDirection(t),this}equals(t){return t.origin.equals(this.origin)&&t.direction.equals(this.direction)}clone(){return new this.constructor().copy(this)}},ll=class extends ls{constructor(t){super(),this.isMeshBasicMaterial=!0,this.type="MeshBasicMaterial",this.color=new ee(16777215),this.map=null,this.lightMap=null,this.lightMapIntensity=1,this.aoMap=null,this.aoMapIntensity=1,this.specularMap=null,this.alphaMap=null,this.envMap=null,this.envMapRotation=new Xi,this.combine=zu,this.reflectivity=1,this.refractionRatio=.98,this.wireframe=!1,this.wireframeLinewidth=1,this.wireframeLinecap="round",this.wireframeLinejoin="round",this.fog=!0,this.setValues(t)}copy(t){return super.copy(t),this.color.copy(t.color),this.map=t.map,this.lightMap=t.lightMap,this.lightMapIntensity=t.lightMapIntensity,this.aoMap=t.aoMap,this.aoMapIntensity=t.aoMapIntensity,this.specularMap=t.specularMap,this.alphaMap=t.alphaMap,this.envMap=t.envMap,this.envMapRotation.copy(t.envMapRotation),this.combine=t.combine,this.reflectivity=t.reflectivity,this.refractionRatio=t.refractionRatio,this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this.wireframeLinecap=t.wireframeLinecap,this.wireframeLinejoin=t.wireframeLinejoin,this.fog=t.fog,this}},l0=new ye,rs=new al,Da=new Ys,c0=new V,Oa=new V,Ua=new V,Fa=new V,Eu=new V,ka=new V,h0=new V,Ba=new V,kn=class extends Fn{constructor(t=new Zn,e=new ll){super(),this.isMesh=!0,this.type="Mesh",this.geometry=t,this.material=e,this.morphTargetDictionary=void 0,this.morphTargetInfluences=void 0,this.count=1,this.updateMorphTargets()}copy(t,e){return super.copy(t,e),t.morphTargetInfluences!==void 0?this.morphTargetInfluences=t.morphTargetInfluences.slice():this.morphTargetInfluences=void 0,t.morphTargetDictionary!==void 0?this.morphTargetDictionary=Object.assign({},t.morphTargetDictionary):this.morphTargetDictionary=void 0,this.material=Array.isArray(t.material)?t.material.slice():t.material,this.geometry=t.geometry,this}updateMorphTargets(){let e=this.geometry.morphAttributes,n=Object.keys(e);if(n.length>0){let s=e[n[0]];if(s!==void 0){this.morphTargetInfluences=[],this.morphTargetDictionary={};for(let r=0,o=s.length;r<o;r++){let a=s[r].name||String(r);this.morphTargetInfluences.push(0),this.morphTargetDictionary[a]=r}}}}getVertexPosition(t,e){let n=this.geometry,s=n.attributes.position,r=n.morphAttributes.position,o=n.morphTargetsRelative;e.fromBufferAttribute(s,t);let a=this.morphTargetInfluences;if(r&&a){ka.set(0,0,0);for(let l=0,c=r.length;l<c;l++){let h=a[l],d=r[l];h!==0&&(Eu.fromBufferAttribute(d,t),o?ka.addScaledVector(Eu,h):ka.addScaledVector(Eu.sub(e),h))}e.add(ka)}return e}intersectsFrustum(t){return t.intersectsObject(this)}raycast(t,e){let n=this.geometry,s=this.material,r=this.matrixWorld;s!==void 0&&(n.boundingSphere===null&&n.computeBoundingSphere(),Da.copy(n.boundingSphere),Da.applyMatrix4(r),rs.copy(t.ray).recast(t.near),!(Da.containsPoint(rs.origin)===!1&&(rs.intersectSphere(Da,c0)===null||rs.origin.distanceToSquared(c0)>(t.far-t.near)**2))&&(l0.copy(r).invert(),rs.copy(t.ray).applyMatrix4(l0),!(n.boundingBox!==null&&rs.intersectsBox(n.boundingBox)===!1)&&this._computeIntersections(t,e,rs)))}_computeIntersections(t,e,n){let s,r=this.geometry,o=this.material,a=r.index,l=r.attributes.position,c=r.attributes.uv,h=r.attributes.uv1,d=r.attributes.normal,u=r.groups,f=r.drawRange;if(a!==null)if(Array.isArray(o))for(let m=0,S=u.length;m<S;m++){let g=u[m],_=o[g.materialIndex],b=Math.max(g.start,f.start),I=Math.min(a.count,Math.min(g.start+g.count,f.start+f.count));for(let A=b,C=I;A<C;A+=3){let E=a.getX(A),y=a.getX(A+1),T=a.getX(A+2);s=za(this,_,t,n,c,h,d,E,y,T),s&&(s.faceIndex=Math.floor(A/3),s.face.materialIndex=g.materialIndex,e.push(s))}}else{let m=Math.max(0,f.start),S=Math.min(a.count,f.start+f.count);for(let g=m,_=S;g<_;g+=3){let b=a.getX(g),I=a.getX(g+1),A=a.getX(g+2);s=za(this,o,t,n,c,h,d,b,I,A),s&&(s.faceIndex=Math.floor(g/3),e.push(s))}}else if(l!==void 0)if(Array.isArray(o))for(let m=0,S=u.length;m<S;m++){let g=u[m],_=o[g.materialIndex],b=Math.max(g.start,f.start),I=Math.min(l.count,Math.min(g.start+g.count,f.start+f.count));for(let A=b,C=I;A<C;A+=3){let E=A,y=A+1,T=A+2;s=za(this,_,t,n,c,h,d,E,y,T),s&&(s.faceIndex=Math.floor(A/3),s.face.materialIndex=g.materialIndex,e.push(s))}}else{let m=Math.max(0,f.start),S=Math.min(l.count,f.start+f.count);for(let g=m,_=S;g<_;g+=3){let b=g,I=g+1,A=g+2;s=za(this,o,t,n,c,h,d,b,I,A),s&&(s.faceIndex=Math.floor(g/3),e.push(s))}}}};function hS(i,t,e,n,s,r,o,a){let l;if(t.side===ln?l=n.intersectTriangle(o,r,s,!0,a):l=n.intersectTriangle(s,r,o,t.side===hi,a),l===null)return null;Ba.copy(a),Ba.applyMatrix4(i.matrixWorld);let c=e.ray.origin.distanceTo(Ba);return c<e.near||c>e.far?null:{distance:c,point:Ba.clone(),object:i}}function za(i,t,e,n,s,r,o,a,l,c){i.getVertexPosition(a,Oa),i.getVertexPosition(l,Ua),i.getVertexPosition(c,Fa);let h=hS(i,t,e,n,Oa,Ua,Fa,h0);if(h){let d=new V;Hi.getBarycoord(h0,Oa,Ua,Fa,d),s&&(h.uv=Hi.getInterpolatedAttribute(s,a,l,c,d,new ne)),r&&(h.uv1=Hi.getInterpolatedAttribute(r,a,l,c,d,new ne)),o&&(h.normal=Hi.getInterpolatedAttribute(o,a,l,c,d,new V),h.normal.dot(n.direction)>0&&h.normal.multiplyScalar(-1));let u={a,b:l,c,normal:new V,materialIndex:0};Hi.getNormal(Oa,Ua,Fa,u.normal),h.face=u,h.barycoord=d}return h}var Js=class extends dn{constructor(t=null,e=1,n=1,s,r,o,a,l,c=ze,h=ze,d,u){super(null,o,a,l,c,h,s,r,d,u),this.isDataTexture=!0,this.image={data:t,width:e,height:n},this.generateMipmaps=!1,this.flipY=!1,this.unpackAlignment=1}};var os=new Ys,uS=new ne(.5,.5),Ga=new V,cs=class{constructor(t=new Jn,e=new Jn,n=new Jn,s=new Jn,r=new Jn,o=new Jn){this.planes=[t,e,n,s,r,o]}set(t,e,n,s,r,o){let a=this.planes;return a[0].copy(t),a[1].copy(e),a[2].copy(n),a[3].copy(s),a[4].copy(r),a[5].copy(o),this}copy(t){let e=this.planes;for(let n=0;n<6;n++)e[n].copy(t.planes[n]);return this}setFromProjectionMatrix(t,e=On,n=!1){let s=this.planes,r=t.elements,o=r[0],a=r[1],l=r[2],c=r[3],h=r[4],d=r[5],u=r[6],f=r[7],m=r[8],S=r[9],g=r[10],_=r[11],b=r[12],I=r[13],A=r[14],C=r[15];if(s[0].setComponents(c-o,f-h,_-m,C-b).normalize(),s[1].setComponents(c+o,f+h,_+m,C+b).normalize(),s[2].setComponents(c+a,f+d,_+S,C+I).normalize(),s[3].setComponents(c-a,f-d,_-S,C-I).normalize(),n)s[4].setComponents(l,u,g,A).normalize(),s[5].setComponents(c-l,f-u,_-g,C-A).normalize();else if(s[4].setComponents(c-l,f-u,_-g,C-A).normalize(),e===On)s[5].setComponents(c+l,f+u,_+g,C+A).normalize();else if(e===Yr)s[5].setComponents(l,u,g,A).normalize();else throw new Error("THREE.Frustum.setFromProjectionMatrix(): Invalid coordinate system: "+e);return this}intersectsObject(t){if(t.boundingSphere!==void 0)t.boundingSphere===null&&t.computeBoundingSphere(),os.copy(t.boundingSphere).applyMatrix4(t.matrixWorld);else{let e=t.geometry;e.boundingSphere===null&&e.computeBoundingSphere(),os.copy(e.boundingSphere).applyMatrix4(t.matrixWorld)}return this.intersectsSphere(os)}intersectsSprite(t){os.center.set(0,0,0);let e=uS.distanceTo(t.center);return os.radius=.7071067811865476+e,os.applyMatrix4(t.matrixWorld),this.intersectsSphere(os)}intersectsSphere(t){let e=this.planes,n=t.center,s=-t.radius;for(let r=0;r<6;r++)if(e[r].distanceToPoint(n)<s)return!1;return!0}intersectsBox(t){let e=this.planes;for(let n=0;n<6;n++){let s=e[n];if(Ga.x=s.normal.x>0?t.max.x:t.min.x,Ga.y=s.normal.y>0?t.max.y:t.min.y,Ga.z=s.normal.z>0?t.max.z:t.min.z,s.distanceToPoint(Ga)<0)return!1}return!0}containsPoint(t){let e=this.planes;for(let n=0;n<6;n++)if(e[n].distanceToPoint(t)<0)return!1;return!0}clone(){return new this.constructor().copy(this)}},u0=new ye,cl=class i{constructor(){this.coordinateSystem=On,this._frustums=[],this._count=0}setFromArrayCamera(t){let e=t.cameras,n=this._frustums;for(let s=0;s<e.length;s++){let r=e[s];u0.multiplyMatrices(r.projectionMatrix,r.matrixWorldInverse),n[s]===void 0&&(n[s]=new cs),n[s].setFromProjectionMatrix(u0,r.coordinateSystem,r.reversedDepth)}return this._count=e.length,this}getFrustum(t){return this._frustums[t]}intersectsObject(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsObject(t))return!0;return!1}intersectsSprite(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsSprite(t))return!0;return!1}intersectsSphere(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsSphere(t))return!0;return!1}intersectsBox(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].intersectsBox(t))return!0;return!1}containsPoint(t){let e=this._frustums;for(let n=0;n<this._count;n++)if(e[n].containsPoint(t))return!0;return!1}copy(t){this.coordinateSystem=t.coordinateSystem;let e=this._frustums,n=t._frustums;for(let s=0;s<t._count;s++)e[s]===void 0&&(e[s]=new cs),e[s].copy(n[s]);return this._count=t._count,this}clone(){return new i().copy(this)}};var eo=class extends dn{constructor(t=[],e=ds,n,s,r,o,a,l,c,h){super(t,e,n,s,r,o,a,l,c,h),this.isCubeTexture=!0,this.flipY=!1}get images(){return this.image}set images(t){this.image=t}};var Ei=class extends dn{constructor(t,e,n=Kn,s,r,o,a=ze,l=ze,c,h=Ai,d=1){if(h!==Ai&&h!==Ri)throw new Error("THREE.DepthTexture: format must be either THREE.DepthFormat or THREE.DepthStencilFormat");let u={width:t,height:e,depth:d};super(u,s,r,o,a,l,h,n,c),this.isDepthTexture=!0,this.flipY=!1,this.generateMipmaps=!1,this.compareFunction=null}copy(t){return super.copy(t),this.source=new $s(Object.assign({},t.image)),this.compareFunction=t.compareFunction,this}toJSON(t){let e=super.toJSON(t);return e.compareFunction=this.compareFunction,e}},no=class extends Ei{constructor(t,e=Kn,n=ds,s,r,o=ze,a=ze,l,c=Ai){let h={width:t,height:t,depth:1},d=[h,h,h,h,h,h];super(t,t,e,n,s,r,o,a,l,c),this.image=d,this.isCubeDepthTexture=!0,this.isCubeTexture=!0}get images(){return this.image}set images(t){this.image=t}},io=class extends dn{constructor(t=null){super(),this.sourceTexture=t,this.isExternalTexture=!0}copy(t){return super.copy(t),this.sourceTexture=t.sourceTexture,this}},Zs=class i extends Zn{constructor(t=1,e=1,n=1,s=1,r=1,o=1){super(),this.type="BoxGeometry",this.parameters={width:t,height:e,depth:n,widthSegments:s,heightSegments:r,depthSegments:o};let a=this;s=Math.floor(s),r=Math.floor(r),o=Math.floor(o);let l=[],c=[],h=[],d=[],u=0,f=0;m("z","y","x",-1,-1,n,e,t,o,r,0),m("z","y","x",1,-1,n,e,-t,o,r,1),m("x","z","y",1,1,t,n,e,s,o,2),m("x","z","y",1,-1,t,n,-e,s,o,3),m("x","y","z",1,-1,t,e,n,s,r,4),m("x","y","z",-1,-1,t,e,-n,s,r,5),this.setIndex(l),this.setAttribute("position",new Un(c,3)),this.setAttribute("normal",new Un(h,3)),this.setAttribute("uv",new Un(d,2));function m(S,g,_,b,I,A,C,E,y,T,B){let N=A/y,O=C/T,z=A/2,Y=C/2,L=E/2,$=y+1,j=T+1,H=0,rt=0,X=new V;for(let tt=0;tt<j;tt++){let et=tt*O-Y;for(let Et=0;Et<$;Et++){let Gt=Et*N-z;X[S]=Gt*b,X[g]=et*I,X[_]=L,c.push(X.x,X.y,X.z),X[S]=0,X[g]=0,X[_]=E>0?1:-1,h.push(X.x,X.y,X.z),d.push(Et/y),d.push(1-tt/T),H+=1}}for(let tt=0;tt<T;tt++)for(let et=0;et<y;et++){let Et=u+et+$*tt,Gt=u+et+$*(tt+1),Z=u+(et+1)+$*(tt+1),yt=u+(et+1)+$*tt;l.push(Et,Gt,yt),l.push(Gt,Z,yt),rt+=6}a.addGroup(f,rt,B),f+=rt,u+=H}}copy(t){return super.copy(t),this.parameters=Object.assign({},t.parameters),this}static fromJSON(t){return new i(t.width,t.height,t.depth,t.widthSegments,t.heightSegments,t.depthSegments)}};var so=class i extends Zn{constructor(t=1,e=1,n=1,s=1){super(),this.type="PlaneGeometry",this.parameters={width:t,height:e,widthSegments:n,heightSegments:s};let r=t/2,o=e/2,a=Math.floor(n),l=Math.floor(s),c=a+1,h=l+1,d=t/a,u=e/l,f=[],m=[],S=[],g=[];for(let _=0;_<h;_++){let b=_*u-o;for(let I=0;I<c;I++){let A=I*d-r;m.push(A,-b,0),S.push(0,0,1),g.push(I/a),g.push(1-_/l)}}for(let _=0;_<l;_++)for(let b=0;b<a;b++){let I=b+c*_,A=b+c*(_+1),C=b+1+c*(_+1),E=b+1+c*_;f.push(I,A,E),f.push(A,C,E)}this.setIndex(f),this.setAttribute("position",new Un(m,3)),this.setAttribute("normal",new Un(S,3)),this.setAttribute("uv",new Un(g,2))}copy(t){return super.copy(t),this.parameters=Object.assign({},t.parameters),this}static fromJSON(t){return new i(t.width,t.height,t.widthSegments,t.heightSegments)}};function ps(i){let t={};for(let e in i){t[e]={};for(let n in i[e]){let s=i[e][n];if(d0(s))s.isRenderTargetTexture?(Ut("UniformsUtils: Textures of render targets cannot be cloned via cloneUniforms() or mergeUniforms()."),t[e][n]=null):t[e][n]=s.clone();else if(Array.isArray(s))if(d0(s[0])){let r=[];for(let o=0,a=s.length;o<a;o++)r[o]=s[o].clone();t[e][n]=r}else t[e][n]=s.slice();else t[e][n]=s}}return t}function en(i){let t={};for(let e=0;e<i.length;e++){let n=ps(i[e]);for(let s in n)t[s]=n[s]}return t}function d0(i){return i&&(i.isColor||i.isMatrix3||i.isMatrix4||i.isVector2||i.isVector3||i.isVector4||i.isTexture||i.isQuaternion)}function dS(i){let t=[];for(let e=0;e<i.length;e++)t.push(i[e].clone());return t}function ld(i){let t=i.getRenderTarget();return t===null?i.outputColorSpace:t.isXRRenderTarget===!0?t.texture.colorSpace:Kt.workingColorSpace}var n_={clone:ps,merge:en},fS=`void main() {
	gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
}`,pS=`void main() {
	gl_FragColor = vec4( 1.0, 0.0, 0.0, 1.0 );
}`,ci=class extends ls{constructor(t){super(),this.isShaderMaterial=!0,this.type="ShaderMaterial",this.defines={},this.uniforms={},this.uniformsGroups=[],this.vertexShader=fS,this.fragmentShader=pS,this.linewidth=1,this.wireframe=!1,this.wireframeLinewidth=1,this.fog=!1,this.lights=!1,this.clipping=!1,this.forceSinglePass=!0,this.extensions={clipCullDistance:!1,multiDraw:!1},this.defaultAttributeValues={color:[1,1,1],uv:[0,0],uv1:[0,0]},this.index0AttributeName=void 0,this.uniformsNeedUpdate=!1,this.glslVersion=null,t!==void 0&&this.setValues(t)}copy(t){return super.copy(t),this.fragmentShader=t.fragmentShader,this.vertexShader=t.vertexShader,this.uniforms=ps(t.uniforms),this.uniformsGroups=dS(t.uniformsGroups),this.defines=Object.assign({},t.defines),this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this.fog=t.fog,this.lights=t.lights,this.clipping=t.clipping,this.extensions=Object.assign({},t.extensions),this.glslVersion=t.glslVersion,this.defaultAttributeValues=Object.assign({},t.defaultAttributeValues),this.index0AttributeName=t.index0AttributeName,this.uniformsNeedUpdate=t.uniformsNeedUpdate,this}toJSON(t){let e=super.toJSON(t);e.glslVersion=this.glslVersion,e.uniforms={};for(let s in this.uniforms){let o=this.uniforms[s].value;o&&o.isTexture?e.uniforms[s]={type:"t",value:o.toJSON(t).uuid}:o&&o.isColor?e.uniforms[s]={type:"c",value:o.getHex()}:o&&o.isVector2?e.uniforms[s]={type:"v2",value:o.toArray()}:o&&o.isVector3?e.uniforms[s]={type:"v3",value:o.toArray()}:o&&o.isVector4?e.uniforms[s]={type:"v4",value:o.toArray()}:o&&o.isMatrix3?e.uniforms[s]={type:"m3",value:o.toArray()}:o&&o.isMatrix4?e.uniforms[s]={type:"m4",value:o.toArray()}:e.uniforms[s]={value:o}}Object.keys(this.defines).length>0&&(e.defines=this.defines),e.vertexShader=this.vertexShader,e.fragmentShader=this.fragmentShader,e.lights=this.lights,e.clipping=this.clipping;let n={};for(let s in this.extensions)this.extensions[s]===!0&&(n[s]=!0);return Object.keys(n).length>0&&(e.extensions=n),e}fromJSON(t,e){if(super.fromJSON(t,e),t.uniforms!==void 0)for(let n in t.uniforms){let s=t.uniforms[n];switch(this.uniforms[n]={},s.type){case"t":this.uniforms[n].value=e[s.value]||null;break;case"c":this.uniforms[n].value=new ee().setHex(s.value);break;case"v2":this.uniforms[n].value=new ne().fromArray(s.value);break;case"v3":this.uniforms[n].value=new V().fromArray(s.value);break;case"v4":this.uniforms[n].value=new xe().fromArray(s.value);break;case"m3":this.uniforms[n].value=new Bt().fromArray(s.value);break;case"m4":this.uniforms[n].value=new ye().fromArray(s.value);break;default:this.uniforms[n].value=s.value}}if(t.defines!==void 0&&(this.defines=t.defines),t.vertexShader!==void 0&&(this.vertexShader=t.vertexShader),t.fragmentShader!==void 0&&(this.fragmentShader=t.fragmentShader),t.glslVersion!==void 0&&(this.glslVersion=t.glslVersion),t.extensions!==void 0)for(let n in t.extensions)this.extensions[n]=t.extensions[n];return t.lights!==void 0&&(this.lights=t.lights),t.clipping!==void 0&&(this.clipping=t.clipping),this}},Ks=class extends ci{constructor(t){super(t),this.isRawShaderMaterial=!0,this.type="RawShaderMaterial"}};var hl=class extends ls{constructor(t){super(),this.isMeshDepthMaterial=!0,this.type="MeshDepthMaterial",this.depthPacking=G0,this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.wireframe=!1,this.wireframeLinewidth=1,this.setValues(t)}copy(t){return super.copy(t),this.depthPacking=t.depthPacking,this.map=t.map,this.alphaMap=t.alphaMap,this.displacementMap=t.displacementMap,this.displacementScale=t.displacementScale,this.displacementBias=t.displacementBias,this.wireframe=t.wireframe,this.wireframeLinewidth=t.wireframeLinewidth,this}},ul=class extends ls{constructor(t){super(),this.isMeshDistanceMaterial=!0,this.type="MeshDistanceMaterial",this.map=null,this.alphaMap=null,this.displacementMap=null,this.displacementScale=1,this.displacementBias=0,this.setValues(t)}copy(t){return super.copy(t),this.map=t.map,this.alphaMap=t.alphaMap,this.displacementMap=t.displacementMap,this.displacementScale=t.displacementScale,this.displacementBias=t.displacementBias,this}};function Gs(i,t){return!i||i.constructor===t?i:typeof t.BYTES_PER_ELEMENT=="number"?new t(i):Array.prototype.slice.call(i)}function Va(i){return i!==void 0&&i.inTangents!==void 0&&i.outTangents!==void 0}var qi=class{constructor(t,e,n,s){this.parameterPositions=t,this._cachedIndex=0,this.resultBuffer=s!==void 0?s:new e.constructor(n),this.sampleValues=e,this.valueSize=n,this.settings=null,this.DefaultSettings_={}}evaluate(t){let e=this.parameterPositions,n=this._cachedIndex,s=e[n],r=e[n-1];n:{t:{let o;e:{i:if(!(t<s)){for(let a=n+2;;){if(s===void 0){if(t<r)break i;return n=e.length,this._cachedIndex=n,this.copySampleValue_(n-1)}if(n===a)break;if(r=s,s=e[++n],t<s)break t}o=e.length;break e}if(!(t>=r)){let a=e[1];t<a&&(n=2,r=a);for(let l=n-2;;){if(r===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(n===l)break;if(s=r,r=e[--n-1],t>=r)break t}o=n,n=0;break e}break n}for(;n<o;){let a=n+o>>>1;t<e[a]?o=a:n=a+1}if(s=e[n],r=e[n-1],r===void 0)return this._cachedIndex=0,this.copySampleValue_(0);if(s===void 0)return n=e.length,this._cachedIndex=n,this.copySampleValue_(n-1)}this._cachedIndex=n,this.intervalChanged_(n,r,s)}return this.interpolate_(n,r,t,s)}getSettings_(){return this.settings||this.DefaultSettings_}copySampleValue_(t){let e=this.resultBuffer,n=this.sampleValues,s=this.valueSize,r=t*s;for(let o=0;o!==s;++o)e[o]=n[r+o];return e}interpolate_(){throw new Error("THREE.Interpolant: Call to abstract method.")}intervalChanged_(){}},dl=class extends qi{constructor(t,e,n,s){super(t,e,n,s),this._weightPrev=-0,this._offsetPrev=-0,this._weightNext=-0,this._offsetNext=-0,this.DefaultSettings_={endingStart:Ru,endingEnd:Ru}}intervalChanged_(t,e,n){let s=this.parameterPositions,r=t-2,o=t+1,a=s[r],l=s[o];if(a===void 0)switch(this.getSettings_().endingStart){case Iu:r=t,a=2*e-n;break;case Pu:r=s.length-2,a=e+s[r]-s[r+1];break;default:r=t,a=n}if(l===void 0)switch(this.getSettings_().endingEnd){case Iu:o=t,l=2*n-e;break;case Pu:o=1,l=n+s[1]-s[0];break;default:o=t-1,l=e}let c=(n-e)*.5,h=this.valueSize;this._weightPrev=c/(e-a),this._weightNext=c/(l-n),this._offsetPrev=r*h,this._offsetNext=o*h}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=this._offsetPrev,d=this._offsetNext,u=this._weightPrev,f=this._weightNext,m=(n-e)/(s-e),S=m*m,g=S*m,_=-u*g+2*u*S-u*m,b=(1+u)*g+(-1.5-2*u)*S+(-.5+u)*m+1,I=(-1-f)*g+(1.5+f)*S+.5*m,A=f*g-f*S;for(let C=0;C!==a;++C)r[C]=_*o[h+C]+b*o[c+C]+I*o[l+C]+A*o[d+C];return r}},fl=class extends qi{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=(n-e)/(s-e),d=1-h;for(let u=0;u!==a;++u)r[u]=o[c+u]*d+o[l+u]*h;return r}},pl=class extends qi{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t){return this.copySampleValue_(t-1)}},ml=class extends qi{interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=t*a,c=l-a,h=this.inTangents,d=this.outTangents;if(!h||!d){let m=(n-e)/(s-e),S=1-m;for(let g=0;g!==a;++g)r[g]=o[c+g]*S+o[l+g]*m;return r}let u=a*2,f=t-1;for(let m=0;m!==a;++m){let S=o[c+m],g=o[l+m],_=f*u+m*2,b=d[_],I=d[_+1],A=t*u+m*2,C=h[A],E=h[A+1],y=gS(n,e,b,C,s);r[m]=i_(y,S,I,E,g)}return r}};function i_(i,t,e,n,s){let r=1-i;return r*r*r*t+3*r*r*i*e+3*r*i*i*n+i*i*i*s}function mS(i,t,e,n,s){let r=1-i;return 3*r*r*(e-t)+6*r*i*(n-e)+3*i*i*(s-n)}function gS(i,t,e,n,s){let r=(i-t)/(s-t);for(let o=0;o<8;o++){let a=i_(r,t,e,n,s)-i;if(Math.abs(a)<1e-10)break;let l=mS(r,t,e,n,s);if(Math.abs(l)<1e-10)break;r=Math.max(0,Math.min(1,r-a/l))}return r}var Mn=class{constructor(t,e,n,s){if(t===void 0)throw new Error("THREE.KeyframeTrack: track name is undefined");if(e===void 0||e.length===0)throw new Error("THREE.KeyframeTrack: no keyframes in track named "+t);this.name=t,this.times=Gs(e,this.TimeBufferType),this.values=Gs(n,this.ValueBufferType),this.setInterpolation(s||this.DefaultInterpolation)}static toJSON(t){let e=t.constructor,n;if(e.toJSON!==this.toJSON)n=e.toJSON(t);else{n={name:t.name,times:Gs(t.times,Array),values:Gs(t.values,Array)};let s=t.getInterpolation();s!==t.DefaultInterpolation&&(n.interpolation=s),Va(t.settings)&&(n.settings={inTangents:Gs(t.settings.inTangents,Array),outTangents:Gs(t.settings.outTangents,Array)})}return n.type=t.ValueTypeName,n}InterpolantFactoryMethodDiscrete(t){return new pl(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodLinear(t){return new fl(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodSmooth(t){return new dl(this.times,this.values,this.getValueSize(),t)}InterpolantFactoryMethodBezier(t){let e=new ml(this.times,this.values,this.getValueSize(),t);return this.settings&&(e.inTangents=this.settings.inTangents,e.outTangents=this.settings.outTangents),e}setInterpolation(t){let e;switch(t){case Xr:e=this.InterpolantFactoryMethodDiscrete;break;case nl:e=this.InterpolantFactoryMethodLinear;break;case Xa:e=this.InterpolantFactoryMethodSmooth;break;case Cu:e=this.InterpolantFactoryMethodBezier;break}if(e===void 0){let n="unsupported interpolation for "+this.ValueTypeName+" keyframe track named "+this.name;if(this.createInterpolant===void 0)if(t!==this.DefaultInterpolation)this.setInterpolation(this.DefaultInterpolation);else throw new Error(n);return Ut("KeyframeTrack:",n),this}return this.createInterpolant=e,this}getInterpolation(){switch(this.createInterpolant){case this.InterpolantFactoryMethodDiscrete:return Xr;case this.InterpolantFactoryMethodLinear:return nl;case this.InterpolantFactoryMethodSmooth:return Xa;case this.InterpolantFactoryMethodBezier:return Cu}}getValueSize(){return this.values.length/this.times.length}shift(t){if(t!==0){let e=this.times;for(let n=0,s=e.length;n!==s;++n)e[n]+=t;Va(this.settings)&&(f0(this.settings.inTangents,t),f0(this.settings.outTangents,t))}return this}scale(t){if(t!==1){let e=this.times;for(let n=0,s=e.length;n!==s;++n)e[n]*=t;Va(this.settings)&&(p0(this.settings.inTangents,t),p0(this.settings.outTangents,t))}return this}trim(t,e){let n=this.times,s=n.length,r=0,o=s-1;for(;r!==s&&n[r]<t;)++r;for(;o!==-1&&n[o]>e;)--o;if(++o,r!==0||o!==s){r>=o&&(o=Math.max(o,1),r=o-1);let a=this.getValueSize();this.times=n.slice(r,o),this.values=this.values.slice(r*a,o*a)}return this}validate(){let t=!0,e=this.getValueSize();e-Math.floor(e)!==0&&(Ft("KeyframeTrack: Invalid value size in track.",this),t=!1);let n=this.times,s=this.values,r=n.length;r===0&&(Ft("KeyframeTrack: Track is empty.",this),t=!1);let o=null;for(let a=0;a!==r;a++){let l=n[a];if(typeof l=="number"&&isNaN(l)){Ft("KeyframeTrack: Time is not a valid number.",this,a,l),t=!1;break}if(o!==null&&o>l){Ft("KeyframeTrack: Out of order keys.",this,a,l,o),t=!1;break}o=l}if(s!==void 0&&WM(s))for(let a=0,l=s.length;a!==l;++a){let c=s[a];if(isNaN(c)){Ft("KeyframeTrack: Value is not a valid number.",this,a,c),t=!1;break}}return t}optimize(){let t=this.times.slice(),e=this.values.slice(),n=this.getValueSize(),s=this.getInterpolation()===Xa,r=t.length-1,o=1;for(let a=1;a<r;++a){let l=!1,c=t[a],h=t[a+1];if(c!==h&&(a!==1||c!==t[0]))if(s)l=!0;else{let d=a*n,u=d-n,f=d+n;for(let m=0;m!==n;++m){let S=e[d+m];if(S!==e[u+m]||S!==e[f+m]){l=!0;break}}}if(l){if(a!==o){t[o]=t[a];let d=a*n,u=o*n;for(let f=0;f!==n;++f)e[u+f]=e[d+f]}++o}}if(r>0){t[o]=t[r];for(let a=r*n,l=o*n,c=0;c!==n;++c)e[l+c]=e[a+c];++o}return o!==t.length?(this.times=t.slice(0,o),this.values=e.slice(0,o*n)):(this.times=t,this.values=e),this}clone(){let t=this.times.slice(),e=this.values.slice(),n=this.constructor,s=new n(this.name,t,e);return s.createInterpolant=this.createInterpolant,Va(this.settings)&&(s.settings={inTangents:this.settings.inTangents.slice(),outTangents:this.settings.outTangents.slice()}),s}};function f0(i,t){for(let e=0,n=i.length;e!==n;e+=2)i[e]+=t}function p0(i,t){for(let e=0,n=i.length;e!==n;e+=2)i[e]*=t}Mn.prototype.ValueTypeName="";Mn.prototype.TimeBufferType=Float32Array;Mn.prototype.ValueBufferType=Float32Array;Mn.prototype.DefaultInterpolation=nl;var Yi=class extends Mn{constructor(t,e,n){super(t,e,n)}};Yi.prototype.ValueTypeName="bool";Yi.prototype.ValueBufferType=Array;Yi.prototype.DefaultInterpolation=Xr;Yi.prototype.InterpolantFactoryMethodLinear=void 0;Yi.prototype.InterpolantFactoryMethodSmooth=void 0;var gl=class extends Mn{constructor(t,e,n,s){super(t,e,n,s)}};gl.prototype.ValueTypeName="color";var _l=class extends Mn{constructor(t,e,n,s){super(t,e,n,s)}};_l.prototype.ValueTypeName="number";var xl=class extends qi{constructor(t,e,n,s){super(t,e,n,s)}interpolate_(t,e,n,s){let r=this.resultBuffer,o=this.sampleValues,a=this.valueSize,l=(n-e)/(s-e),c=t*a;for(let h=c+a;c!==h;c+=4)li.slerpFlat(r,0,o,c-a,o,c,l);return r}},ro=class extends Mn{constructor(t,e,n,s){super(t,e,n,s)}InterpolantFactoryMethodLinear(t){return new xl(this.times,this.values,this.getValueSize(),t)}};ro.prototype.ValueTypeName="quaternion";ro.prototype.InterpolantFactoryMethodSmooth=void 0;var Ji=class extends Mn{constructor(t,e,n){super(t,e,n)}};Ji.prototype.ValueTypeName="string";Ji.prototype.ValueBufferType=Array;Ji.prototype.DefaultInterpolation=Xr;Ji.prototype.InterpolantFactoryMethodLinear=void 0;Ji.prototype.InterpolantFactoryMethodSmooth=void 0;var yl=class extends Mn{constructor(t,e,n,s){super(t,e,n,s)}};yl.prototype.ValueTypeName="vector";var vl=class{constructor(t,e,n){let s=this,r=!1,o=0,a=0,l,c=[];this.onStart=void 0,this.onLoad=t,this.onProgress=e,this.onError=n,this._abortController=null,this.itemStart=function(h){a++,r===!1&&s.onStart!==void 0&&s.onStart(h,o,a),r=!0},this.itemEnd=function(h){o++,s.onProgress!==void 0&&s.onProgress(h,o,a),o===a&&(r=!1,s.onLoad!==void 0&&s.onLoad())},this.itemError=function(h){s.onError!==void 0&&s.onError(h)},this.resolveURL=function(h){return h=h.normalize("NFC"),l?l(h):h},this.setURLModifier=function(h){return l=h,this},this.addHandler=function(h,d){return c.push(h,d),this},this.removeHandler=function(h){let d=c.indexOf(h);return d!==-1&&c.splice(d,2),this},this.getHandler=function(h){for(let d=0,u=c.length;d<u;d+=2){let f=c[d],m=c[d+1];if(f.global&&(f.lastIndex=0),f.test(h))return m}return null},this.abort=function(){return this.abortController.abort(),this._abortController=null,this}}get abortController(){return this._abortController||(this._abortController=new AbortController),this._abortController}},s_=new vl,Ml=class{constructor(t){this.manager=t!==void 0?t:s_,this.crossOrigin="anonymous",this.withCredentials=!1,this.path="",this.resourcePath="",this.requestHeader={},this.priority="auto",this.cache="default",typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}load(){}loadAsync(t,e){let n=this;return new Promise(function(s,r){n.load(t,s,e,r)})}parse(){}setCrossOrigin(t){return this.crossOrigin=t,this}setWithCredentials(t){return this.withCredentials=t,this}setPath(t){return this.path=t,this}setResourcePath(t){return this.resourcePath=t,this}setRequestHeader(t){return this.requestHeader=t,this}setPriority(t){return this.priority=t,this}setCache(t){return this.cache=t,this}abort(){return this}};Ml.DEFAULT_MATERIAL_NAME="__DEFAULT";var Ha=new V,Wa=new li,ri=new V,oo=class extends Fn{constructor(){super(),this.isCamera=!0,this.type="Camera",this.matrixWorldInverse=new ye,this.projectionMatrix=new ye,this.projectionMatrixInverse=new ye,this.coordinateSystem=On,this._reversedDepth=!1}get reversedDepth(){return this._reversedDepth}copy(t,e){return super.copy(t,e),this.matrixWorldInverse.copy(t.matrixWorldInverse),this.projectionMatrix.copy(t.projectionMatrix),this.projectionMatrixInverse.copy(t.projectionMatrixInverse),this.coordinateSystem=t.coordinateSystem,this}getWorldDirection(t){return super.getWorldDirection(t).negate()}updateMatrixWorld(t){super.updateMatrixWorld(t),this.matrixWorld.decompose(Ha,Wa,ri),ri.x===1&&ri.y===1&&ri.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Ha,Wa,ri.set(1,1,1)).invert()}updateWorldMatrix(t,e,n=!1){super.updateWorldMatrix(t,e,n),this.matrixWorld.decompose(Ha,Wa,ri),ri.x===1&&ri.y===1&&ri.z===1?this.matrixWorldInverse.copy(this.matrixWorld).invert():this.matrixWorldInverse.compose(Ha,Wa,ri.set(1,1,1)).invert()}clone(){return new this.constructor().copy(this)}},Vi=new V,m0=new ne,g0=new ne,yn=class extends oo{constructor(t=50,e=1,n=.1,s=2e3){super(),this.isPerspectiveCamera=!0,this.type="PerspectiveCamera",this.fov=t,this.zoom=1,this.near=n,this.far=s,this.focus=10,this.aspect=e,this.view=null,this.filmGauge=35,this.filmOffset=0,this.updateProjectionMatrix()}copy(t,e){return super.copy(t,e),this.fov=t.fov,this.zoom=t.zoom,this.near=t.near,this.far=t.far,this.focus=t.focus,this.aspect=t.aspect,this.view=t.view===null?null:Object.assign({},t.view),this.filmGauge=t.filmGauge,this.filmOffset=t.filmOffset,this}setFocalLength(t){let e=.5*this.getFilmHeight()/t;this.fov=il*2*Math.atan(e),this.updateProjectionMatrix()}getFocalLength(){let t=Math.tan(au*.5*this.fov);return .5*this.getFilmHeight()/t}getEffectiveFOV(){return il*2*Math.atan(Math.tan(au*.5*this.fov)/this.zoom)}getFilmWidth(){return this.filmGauge*Math.min(this.aspect,1)}getFilmHeight(){return this.filmGauge/Math.max(this.aspect,1)}getViewBounds(t,e,n){Vi.set(-1,-1,.5).applyMatrix4(this.projectionMatrixInverse),e.set(Vi.x,Vi.y).multiplyScalar(-t/Vi.z),Vi.set(1,1,.5).applyMatrix4(this.projectionMatrixInverse),n.set(Vi.x,Vi.y).multiplyScalar(-t/Vi.z)}getViewSize(t,e){return this.getViewBounds(t,m0,g0),e.subVectors(g0,m0)}setViewOffset(t,e,n,s,r,o){this.aspect=t/e,this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=t,this.view.fullHeight=e,this.view.offsetX=n,this.view.offsetY=s,this.view.width=r,this.view.height=o,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let t=this.near,e=t*Math.tan(au*.5*this.fov)/this.zoom,n=2*e,s=this.aspect*n,r=-.5*s,o=this.view;if(this.view!==null&&this.view.enabled){let l=o.fullWidth,c=o.fullHeight;r+=o.offsetX*s/l,e-=o.offsetY*n/c,s*=o.width/l,n*=o.height/c}let a=this.filmOffset;a!==0&&(r+=t*a/this.getFilmWidth()),this.projectionMatrix.makePerspective(r,r+s,e,e-n,t,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(t){let e=super.toJSON(t);return e.object.fov=this.fov,e.object.zoom=this.zoom,e.object.near=this.near,e.object.far=this.far,e.object.focus=this.focus,e.object.aspect=this.aspect,this.view!==null&&(e.object.view=Object.assign({},this.view)),e.object.filmGauge=this.filmGauge,e.object.filmOffset=this.filmOffset,e}};var js=class extends oo{constructor(t=-1,e=1,n=1,s=-1,r=.1,o=2e3){super(),this.isOrthographicCamera=!0,this.type="OrthographicCamera",this.zoom=1,this.view=null,this.left=t,this.right=e,this.top=n,this.bottom=s,this.near=r,this.far=o,this.updateProjectionMatrix()}copy(t,e){return super.copy(t,e),this.left=t.left,this.right=t.right,this.top=t.top,this.bottom=t.bottom,this.near=t.near,this.far=t.far,this.zoom=t.zoom,this.view=t.view===null?null:Object.assign({},t.view),this}setViewOffset(t,e,n,s,r,o){this.view===null&&(this.view={enabled:!0,fullWidth:1,fullHeight:1,offsetX:0,offsetY:0,width:1,height:1}),this.view.enabled=!0,this.view.fullWidth=t,this.view.fullHeight=e,this.view.offsetX=n,this.view.offsetY=s,this.view.width=r,this.view.height=o,this.updateProjectionMatrix()}clearViewOffset(){this.view!==null&&(this.view.enabled=!1),this.updateProjectionMatrix()}updateProjectionMatrix(){let t=(this.right-this.left)/(2*this.zoom),e=(this.top-this.bottom)/(2*this.zoom),n=(this.right+this.left)/2,s=(this.top+this.bottom)/2,r=n-t,o=n+t,a=s+e,l=s-e;if(this.view!==null&&this.view.enabled){let c=(this.right-this.left)/this.view.fullWidth/this.zoom,h=(this.top-this.bottom)/this.view.fullHeight/this.zoom;r+=c*this.view.offsetX,o=r+c*this.view.width,a-=h*this.view.offsetY,l=a-h*this.view.height}this.projectionMatrix.makeOrthographic(r,o,a,l,this.near,this.far,this.coordinateSystem,this.reversedDepth),this.projectionMatrixInverse.copy(this.projectionMatrix).invert()}toJSON(t){let e=super.toJSON(t);return e.object.zoom=this.zoom,e.object.left=this.left,e.object.right=this.right,e.object.top=this.top,e.object.bottom=this.bottom,e.object.near=this.near,e.object.far=this.far,this.view!==null&&(e.object.view=Object.assign({},this.view)),e}};var Vs=-90,Hs=1,Qs=class extends Fn{constructor(t,e,n){super(),this.type="CubeCamera",this.renderTarget=n,this.coordinateSystem=null,this.activeMipmapLevel=0;let s=new yn(Vs,Hs,t,e);s.layers=this.layers,this.add(s);let r=new yn(Vs,Hs,t,e);r.layers=this.layers,this.add(r);let o=new yn(Vs,Hs,t,e);o.layers=this.layers,this.add(o);let a=new yn(Vs,Hs,t,e);a.layers=this.layers,this.add(a);let l=new yn(Vs,Hs,t,e);l.layers=this.layers,this.add(l);let c=new yn(Vs,Hs,t,e);c.layers=this.layers,this.add(c)}updateCoordinateSystem(){let t=this.coordinateSystem,e=this.children.concat(),[n,s,r,o,a,l]=e;for(let c of e)this.remove(c);if(t===On)n.up.set(0,1,0),n.lookAt(1,0,0),s.up.set(0,1,0),s.lookAt(-1,0,0),r.up.set(0,0,-1),r.lookAt(0,1,0),o.up.set(0,0,1),o.lookAt(0,-1,0),a.up.set(0,1,0),a.lookAt(0,0,1),l.up.set(0,1,0),l.lookAt(0,0,-1);else if(t===Yr)n.up.set(0,-1,0),n.lookAt(-1,0,0),s.up.set(0,-1,0),s.lookAt(1,0,0),r.up.set(0,0,1),r.lookAt(0,1,0),o.up.set(0,0,-1),o.lookAt(0,-1,0),a.up.set(0,-1,0),a.lookAt(0,0,1),l.up.set(0,-1,0),l.lookAt(0,0,-1);else throw new Error("THREE.CubeCamera.updateCoordinateSystem(): Invalid coordinate system: "+t);for(let c of e)this.add(c),c.updateMatrixWorld()}update(t,e){this.parent===null&&this.updateMatrixWorld();let{renderTarget:n,activeMipmapLevel:s}=this;this.coordinateSystem!==t.coordinateSystem&&(this.coordinateSystem=t.coordinateSystem,this.updateCoordinateSystem());let[r,o,a,l,c,h]=this.children,d=t.getRenderTarget(),u=t.getActiveCubeFace(),f=t.getActiveMipmapLevel(),m=t.xr.enabled;t.xr.enabled=!1;let S=n.texture.mipmapsAutoUpdate;n.texture.mipmapsAutoUpdate=!1;let g=!1;t.isWebGLRenderer===!0?g=t.state.buffers.depth.getReversed():g=t.reversedDepthBuffer,t.setRenderTarget(n,0,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,r),t.setRenderTarget(n,1,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,o),t.setRenderTarget(n,2,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,a),t.setRenderTarget(n,3,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,l),t.setRenderTarget(n,4,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,c),n.texture.mipmapsAutoUpdate=S,t.setRenderTarget(n,5,s),g&&t.autoClear===!1&&t.clearDepth(),t.render(e,h),t.setRenderTarget(d,u,f),t.xr.enabled=m,n.texture.needsPMREMUpdate=!0}},Sl=class extends yn{constructor(t=[]){super(),this.isArrayCamera=!0,this.isMultiViewCamera=!1,this.cameras=t,this.perCameraFrustumCulled=!1}};var cd="\\[\\]\\.:\\/",_S=new RegExp("["+cd+"]","g"),hd="[^"+cd+"]",xS="[^"+cd.replace("\\.","")+"]",yS=/((?:WC+[\/:])*)/.source.replace("WC",hd),vS=/(WCOD+)?/.source.replace("WCOD",xS),MS=/(?:\.(WC+)(?:\[(.+)\])?)?/.source.replace("WC",hd),SS=/\.(WC+)(?:\[(.+)\])?/.source.replace("WC",hd),bS=new RegExp("^"+yS+vS+MS+SS+"$"),wS=["material","materials","bones","map"],Lu=class{constructor(t,e,n){let s=n||de.parseTrackName(e);this._targetGroup=t,this._bindings=t.subscribe_(e,s)}getValue(t,e){this.bind();let n=this._targetGroup.nCachedObjects_,s=this._bindings[n];s!==void 0&&s.getValue(t,e)}setValue(t,e){let n=this._bindings;for(let s=this._targetGroup.nCachedObjects_,r=n.length;s!==r;++s)n[s].setValue(t,e)}bind(){let t=this._bindings;for(let e=this._targetGroup.nCachedObjects_,n=t.length;e!==n;++e)t[e].bind()}unbind(){let t=this._bindings;for(let e=this._targetGroup.nCachedObjects_,n=t.length;e!==n;++e)t[e].unbind()}},de=class i{constructor(t,e,n){this.path=e,this.parsedPath=n||i.parseTrackName(e),this.node=i.findNode(t,this.parsedPath.nodeName),this.rootNode=t,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}static create(t,e,n){return t&&t.isAnimationObjectGroup?new i.Composite(t,e,n):new i(t,e,n)}static sanitizeNodeName(t){return t.replace(/\s/g,"_").replace(_S,"")}static parseTrackName(t){let e=bS.exec(t);if(e===null)throw new Error("THREE.PropertyBinding: Cannot parse trackName: "+t);let n={nodeName:e[2],objectName:e[3],objectIndex:e[4],propertyName:e[5],propertyIndex:e[6]},s=n.nodeName&&n.nodeName.lastIndexOf(".");if(s!==void 0&&s!==-1){let r=n.nodeName.substring(s+1);wS.indexOf(r)!==-1&&(n.nodeName=n.nodeName.substring(0,s),n.objectName=r)}if(n.propertyName===null||n.propertyName.length===0)throw new Error("THREE.PropertyBinding: can not parse propertyName from trackName: "+t);return n}static findNode(t,e){if(e===void 0||e===""||e==="."||e===-1||e===t.name||e===t.uuid)return t;if(t.skeleton){let n=t.skeleton.getBoneByName(e);if(n!==void 0)return n}if(t.children){let n=function(r){for(let o=0;o<r.length;o++){let a=r[o];if(a.name===e||a.uuid===e)return a;let l=n(a.children);if(l)return l}return null},s=n(t.children);if(s)return s}return null}_getValue_unavailable(){}_setValue_unavailable(){}_getValue_direct(t,e){t[e]=this.targetObject[this.propertyName]}_getValue_array(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)t[e++]=n[s]}_getValue_arrayElement(t,e){t[e]=this.resolvedProperty[this.propertyIndex]}_getValue_toArray(t,e){this.resolvedProperty.toArray(t,e)}_setValue_direct(t,e){this.targetObject[this.propertyName]=t[e]}_setValue_direct_setNeedsUpdate(t,e){this.targetObject[this.propertyName]=t[e],this.targetObject.needsUpdate=!0}_setValue_direct_setMatrixWorldNeedsUpdate(t,e){this.targetObject[this.propertyName]=t[e],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_array(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++]}_setValue_array_setNeedsUpdate(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++];this.targetObject.needsUpdate=!0}_setValue_array_setMatrixWorldNeedsUpdate(t,e){let n=this.resolvedProperty;for(let s=0,r=n.length;s!==r;++s)n[s]=t[e++];this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_arrayElement(t,e){this.resolvedProperty[this.propertyIndex]=t[e]}_setValue_arrayElement_setNeedsUpdate(t,e){this.resolvedProperty[this.propertyIndex]=t[e],this.targetObject.needsUpdate=!0}_setValue_arrayElement_setMatrixWorldNeedsUpdate(t,e){this.resolvedProperty[this.propertyIndex]=t[e],this.targetObject.matrixWorldNeedsUpdate=!0}_setValue_fromArray(t,e){this.resolvedProperty.fromArray(t,e)}_setValue_fromArray_setNeedsUpdate(t,e){this.resolvedProperty.fromArray(t,e),this.targetObject.needsUpdate=!0}_setValue_fromArray_setMatrixWorldNeedsUpdate(t,e){this.resolvedProperty.fromArray(t,e),this.targetObject.matrixWorldNeedsUpdate=!0}_getValue_unbound(t,e){this.bind(),this.getValue(t,e)}_setValue_unbound(t,e){this.bind(),this.setValue(t,e)}bind(){let t=this.node,e=this.parsedPath,n=e.objectName,s=e.propertyName,r=e.propertyIndex;if(t||(t=i.findNode(this.rootNode,e.nodeName),this.node=t),this.getValue=this._getValue_unavailable,this.setValue=this._setValue_unavailable,!t){Ut("PropertyBinding: No target node found for track: "+this.path+".");return}if(n){let c=e.objectIndex;switch(n){case"materials":if(!t.material){Ft("PropertyBinding: Can not bind to material as node does not have a material.",this);return}if(!t.material.materials){Ft("PropertyBinding: Can not bind to material.materials as node.material does not have a materials array.",this);return}t=t.material.materials;break;case"bones":if(!t.skeleton){Ft("PropertyBinding: Can not bind to bones as node does not have a skeleton.",this);return}t=t.skeleton.bones;for(let h=0;h<t.length;h++)if(t[h].name===c){c=h;break}break;case"map":if("map"in t){t=t.map;break}if(!t.material){Ft("PropertyBinding: Can not bind to material as node does not have a material.",this);return}if(!t.material.map){Ft("PropertyBinding: Can not bind to material.map as node.material does not have a map.",this);return}t=t.material.map;break;default:if(t[n]===void 0){Ft("PropertyBinding: Can not bind to objectName of node undefined.",this);return}t=t[n]}if(c!==void 0){if(t[c]===void 0){Ft("PropertyBinding: Trying to bind to objectIndex of objectName, but is undefined.",this,t);return}t=t[c]}}let o=t[s];if(o===void 0){let c=e.nodeName;Ft("PropertyBinding: Trying to update property for track: "+c+"."+s+" but it wasn't found.",t);return}let a=this.Versioning.None;this.targetObject=t,t.isMaterial===!0?a=this.Versioning.NeedsUpdate:t.isObject3D===!0&&(a=this.Versioning.MatrixWorldNeedsUpdate);let l=this.BindingType.Direct;if(r!==void 0){if(s==="morphTargetInfluences"){if(!t.geometry){Ft("PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.",this);return}if(!t.geometry.morphAttributes){Ft("PropertyBinding: Can not bind to morphTargetInfluences because node does not have a geometry.morphAttributes.",this);return}t.morphTargetDictionary[r]!==void 0&&(r=t.morphTargetDictionary[r])}l=this.BindingType.ArrayElement,this.resolvedProperty=o,this.propertyIndex=r}else o.fromArray!==void 0&&o.toArray!==void 0?(l=this.BindingType.HasFromToArray,this.resolvedProperty=o):Array.isArray(o)?(l=this.BindingType.EntireArray,this.resolvedProperty=o):this.propertyName=s;this.getValue=this.GetterByBindingType[l],this.setValue=this.SetterByBindingTypeAndVersioning[l][a]}unbind(){this.node=null,this.getValue=this._getValue_unbound,this.setValue=this._setValue_unbound}};de.Composite=Lu;de.prototype.BindingType={Direct:0,EntireArray:1,ArrayElement:2,HasFromToArray:3};de.prototype.Versioning={None:0,NeedsUpdate:1,MatrixWorldNeedsUpdate:2};de.prototype.GetterByBindingType=[de.prototype._getValue_direct,de.prototype._getValue_array,de.prototype._getValue_arrayElement,de.prototype._getValue_toArray];de.prototype.SetterByBindingTypeAndVersioning=[[de.prototype._setValue_direct,de.prototype._setValue_direct_setNeedsUpdate,de.prototype._setValue_direct_setMatrixWorldNeedsUpdate],[de.prototype._setValue_array,de.prototype._setValue_array_setNeedsUpdate,de.prototype._setValue_array_setMatrixWorldNeedsUpdate],[de.prototype._setValue_arrayElement,de.prototype._setValue_arrayElement_setNeedsUpdate,de.prototype._setValue_arrayElement_setMatrixWorldNeedsUpdate],[de.prototype._setValue_fromArray,de.prototype._setValue_fromArray_setNeedsUpdate,de.prototype._setValue_fromArray_setMatrixWorldNeedsUpdate]];var qI=new Float32Array(1);var gd=class gd{constructor(t,e,n,s){this.elements=[1,0,0,1],t!==void 0&&this.set(t,e,n,s)}identity(){return this.set(1,0,0,1),this}fromArray(t,e=0){for(let n=0;n<4;n++)this.elements[n]=t[n+e];return this}set(t,e,n,s){let r=this.elements;return r[0]=t,r[2]=e,r[1]=n,r[3]=s,this}};gd.prototype.isMatrix2=!0;var Nu=gd;function ud(i,t,e,n){let s=TS(n);switch(e){case Qu:return i*t;case ed:return i*t/s.components*s.byteLength;case Il:return i*t/s.components*s.byteLength;case Zi:return i*t*2/s.components*s.byteLength;case Pl:return i*t*2/s.components*s.byteLength;case td:return i*t*3/s.components*s.byteLength;case bn:return i*t*4/s.components*s.byteLength;case Ll:return i*t*4/s.components*s.byteLength;case co:case ho:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*8;case uo:case fo:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Dl:case Ul:return Math.max(i,16)*Math.max(t,8)/4;case Nl:case Ol:return Math.max(i,8)*Math.max(t,8)/2;case Fl:case kl:case zl:case Gl:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*8;case Bl:case po:case Vl:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Hl:return Math.floor((i+3)/4)*Math.floor((t+3)/4)*16;case Wl:return Math.floor((i+4)/5)*Math.floor((t+3)/4)*16;case Xl:return Math.floor((i+4)/5)*Math.floor((t+4)/5)*16;case $l:return Math.floor((i+5)/6)*Math.floor((t+4)/5)*16;case ql:return Math.floor((i+5)/6)*Math.floor((t+5)/6)*16;case Yl:return Math.floor((i+7)/8)*Math.floor((t+4)/5)*16;case Jl:return Math.floor((i+7)/8)*Math.floor((t+5)/6)*16;case Zl:return Math.floor((i+7)/8)*Math.floor((t+7)/8)*16;case Kl:return Math.floor((i+9)/10)*Math.floor((t+4)/5)*16;case jl:return Math.floor((i+9)/10)*Math.floor((t+5)/6)*16;case Ql:return Math.floor((i+9)/10)*Math.floor((t+7)/8)*16;case tc:return Math.floor((i+9)/10)*Math.floor((t+9)/10)*16;case ec:return Math.floor((i+11)/12)*Math.floor((t+9)/10)*16;case nc:return Math.floor((i+11)/12)*Math.floor((t+11)/12)*16;case ic:case sc:case rc:return Math.ceil(i/4)*Math.ceil(t/4)*16;case oc:case ac:return Math.ceil(i/4)*Math.ceil(t/4)*8;case mo:case lc:return Math.ceil(i/4)*Math.ceil(t/4)*16}throw new Error(`Unable to determine texture byte length for ${e} format.`)}function TS(i){switch(i){case Sn:case Ju:return{byteLength:1,components:1};case ir:case Zu:case Qn:return{byteLength:2,components:1};case Cl:case Rl:return{byteLength:2,components:4};case Kn:case El:case jn:return{byteLength:4,components:1};case Ku:case ju:return{byteLength:4,components:3}}throw new Error(`THREE.TextureUtils: Unknown texture type ${i}.`)}typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("register",{detail:{revision:"187"}}));typeof window<"u"&&(window.__THREE__?Ut("WARNING: Multiple instances of Three.js being imported."):window.__THREE__="187");function A_(){let i=null,t=!1,e=null,n=null;function s(r,o){n=i.requestAnimationFrame(s),e(r,o)}return{start:function(){t!==!0&&e!==null&&i!==null&&(n=i.requestAnimationFrame(s),t=!0)},stop:function(){i!==null&&i.cancelAnimationFrame(n),t=!1},setAnimationLoop:function(r){e=r},setContext:function(r){i=r}}}function ES(i){let t=new WeakMap;function e(a,l){let c=a.array,h=a.usage,d=c.byteLength,u=i.createBuffer();i.bindBuffer(l,u),i.bufferData(l,c,h),a.onUploadCallback();let f;if(c instanceof Float32Array)f=i.FLOAT;else if(typeof Float16Array<"u"&&c instanceof Float16Array)f=i.HALF_FLOAT;else if(c instanceof Uint16Array)a.isFloat16BufferAttribute?f=i.HALF_FLOAT:f=i.UNSIGNED_SHORT;else if(c instanceof Int16Array)f=i.SHORT;else if(c instanceof Uint32Array)f=i.UNSIGNED_INT;else if(c instanceof Int32Array)f=i.INT;else if(c instanceof Int8Array)f=i.BYTE;else if(c instanceof Uint8Array)f=i.UNSIGNED_BYTE;else if(c instanceof Uint8ClampedArray)f=i.UNSIGNED_BYTE;else throw new Error("THREE.WebGLAttributes: Unsupported buffer data format: "+c);return{buffer:u,type:f,bytesPerElement:c.BYTES_PER_ELEMENT,version:a.version,size:d}}function n(a,l,c){let h=l.array,d=l.updateRanges;if(i.bindBuffer(c,a),d.length===0)i.bufferSubData(c,0,h);else{d.sort((f,m)=>f.start-m.start);let u=0;for(let f=1;f<d.length;f++){let m=d[u],S=d[f];S.start<=m.start+m.count+1?m.count=Math.max(m.count,S.start+S.count-m.start):(++u,d[u]=S)}d.length=u+1;for(let f=0,m=d.length;f<m;f++){let S=d[f];i.bufferSubData(c,S.start*h.BYTES_PER_ELEMENT,h,S.start,S.count)}l.clearUpdateRanges()}l.onUploadCallback()}function s(a){return a.isInterleavedBufferAttribute&&(a=a.data),t.get(a)}function r(a){a.isInterleavedBufferAttribute&&(a=a.data);let l=t.get(a);l&&(i.deleteBuffer(l.buffer),t.delete(a))}function o(a,l){if(a.isInterleavedBufferAttribute&&(a=a.data),a.isGLBufferAttribute){let h=t.get(a);(!h||h.version<a.version)&&t.set(a,{buffer:a.buffer,type:a.type,bytesPerElement:a.elementSize,version:a.version});return}let c=t.get(a);if(c===void 0)t.set(a,e(a,l));else if(c.version<a.version){if(c.size!==a.array.byteLength)throw new Error("THREE.WebGLAttributes: The size of the buffer attribute's array buffer does not match the original size. Resizing buffer attributes is not supported.");n(c.buffer,a,l),c.version=a.version}}return{get:s,remove:r,update:o}}var CS=`#ifdef USE_ALPHAHASH
	if ( diffuseColor.a < getAlphaHashThreshold( vPosition ) ) discard;
#endif`,RS=`#ifdef USE_ALPHAHASH
	const float ALPHA_HASH_SCALE = 0.05;
	float hash2D( vec2 value ) {
		return fract( 1.0e4 * sin( 17.0 * value.x + 0.1 * value.y ) * ( 0.1 + abs( sin( 13.0 * value.y + value.x ) ) ) );
	}
	float hash3D( vec3 value ) {
		return hash2D( vec2( hash2D( value.xy ), value.z ) );
	}
	float getAlphaHashThreshold( vec3 position ) {
		float maxDeriv = max(
			length( dFdx( position.xyz ) ),
			length( dFdy( position.xyz ) )
		);
		float pixScale = 1.0 / ( ALPHA_HASH_SCALE * maxDeriv );
		vec2 pixScales = vec2(
			exp2( floor( log2( pixScale ) ) ),
			exp2( ceil( log2( pixScale ) ) )
		);
		vec2 alpha = vec2(
			hash3D( floor( pixScales.x * position.xyz ) ),
			hash3D( floor( pixScales.y * position.xyz ) )
		);
		float lerpFactor = fract( log2( pixScale ) );
		float x = ( 1.0 - lerpFactor ) * alpha.x + lerpFactor * alpha.y;
		float a = min( lerpFactor, 1.0 - lerpFactor );
		vec3 cases = vec3(
			x * x / ( 2.0 * a * ( 1.0 - a ) ),
			( x - 0.5 * a ) / ( 1.0 - a ),
			1.0 - ( ( 1.0 - x ) * ( 1.0 - x ) / ( 2.0 * a * ( 1.0 - a ) ) )
		);
		float threshold = ( x < ( 1.0 - a ) )
			? ( ( x < a ) ? cases.x : cases.y )
			: cases.z;
		return clamp( threshold , 1.0e-6, 1.0 );
	}
#endif`,IS=`#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, vAlphaMapUv ).g;
#endif`,PS=`#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,LS=`#ifdef USE_ALPHATEST
	#ifdef ALPHA_TO_COVERAGE
	diffuseColor.a = smoothstep( alphaTest, alphaTest + fwidth( diffuseColor.a ), diffuseColor.a );
	if ( diffuseColor.a == 0.0 ) discard;
	#else
	if ( diffuseColor.a < alphaTest ) discard;
	#endif
#endif`,NS=`#ifdef USE_ALPHATEST
	uniform float alphaTest;
#endif`,DS=`#ifdef USE_AOMAP
	float ambientOcclusion = ( texture2D( aoMap, vAoMapUv ).r - 1.0 ) * aoMapIntensity + 1.0;
	reflectedLight.indirectDiffuse *= ambientOcclusion;
	#if defined( USE_CLEARCOAT ) 
		clearcoatSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_SHEEN ) 
		sheenSpecularIndirect *= ambientOcclusion;
	#endif
	#if defined( USE_ENVMAP ) && defined( STANDARD )
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		reflectedLight.indirectSpecular *= computeSpecularOcclusion( dotNV, ambientOcclusion, material.roughness );
	#endif
#endif`,OS=`#ifdef USE_AOMAP
	uniform sampler2D aoMap;
	uniform float aoMapIntensity;
#endif`,US=`#ifdef USE_BATCHING
	#if ! defined( GL_ANGLE_multi_draw )
	#define gl_DrawID _gl_DrawID
	uniform int _gl_DrawID;
	#endif
	uniform highp sampler2D batchingTexture;
	uniform highp usampler2D batchingIdTexture;
	mat4 getBatchingMatrix( const in float i ) {
		int size = textureSize( batchingTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( batchingTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( batchingTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( batchingTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( batchingTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
	float getIndirectIndex( const in int i ) {
		int size = textureSize( batchingIdTexture, 0 ).x;
		int x = i % size;
		int y = i / size;
		return float( texelFetch( batchingIdTexture, ivec2( x, y ), 0 ).r );
	}
#endif
#ifdef USE_BATCHING_COLOR
	uniform sampler2D batchingColorTexture;
	vec4 getBatchingColor( const in float i ) {
		int size = textureSize( batchingColorTexture, 0 ).x;
		int j = int( i );
		int x = j % size;
		int y = j / size;
		return texelFetch( batchingColorTexture, ivec2( x, y ), 0 );
	}
#endif`,FS=`#ifdef USE_BATCHING
	mat4 batchingMatrix = getBatchingMatrix( getIndirectIndex( gl_DrawID ) );
#endif`,kS=`vec3 transformed = vec3( position );
#ifdef USE_ALPHAHASH
	vPosition = vec3( position );
#endif`,BS=`vec3 objectNormal = vec3( normal );
#ifdef USE_TANGENT
	vec3 objectTangent = vec3( tangent.xyz );
#endif`,zS=`float G_BlinnPhong_Implicit( ) {
	return 0.25;
}
float D_BlinnPhong( const in float shininess, const in float dotNH ) {
	return RECIPROCAL_PI * ( shininess * 0.5 + 1.0 ) * pow( dotNH, shininess );
}
vec3 BRDF_BlinnPhong( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 specularColor, const in float shininess ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( specularColor, 1.0, dotVH );
	float G = G_BlinnPhong_Implicit( );
	float D = D_BlinnPhong( shininess, dotNH );
	return F * ( G * D );
} // validated`,GS=`#ifdef USE_IRIDESCENCE
	const mat3 XYZ_TO_REC709 = mat3(
		 3.2404542, -0.9692660,  0.0556434,
		-1.5371385,  1.8760108, -0.2040259,
		-0.4985314,  0.0415560,  1.0572252
	);
	vec3 Fresnel0ToIor( vec3 fresnel0 ) {
		vec3 sqrtF0 = sqrt( fresnel0 );
		return ( vec3( 1.0 ) + sqrtF0 ) / ( vec3( 1.0 ) - sqrtF0 );
	}
	vec3 IorToFresnel0( vec3 transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - vec3( incidentIor ) ) / ( transmittedIor + vec3( incidentIor ) ) );
	}
	float IorToFresnel0( float transmittedIor, float incidentIor ) {
		return pow2( ( transmittedIor - incidentIor ) / ( transmittedIor + incidentIor ));
	}
	vec3 evalSensitivity( float OPD, vec3 shift ) {
		float phase = 2.0 * PI * OPD * 1.0e-9;
		vec3 val = vec3( 5.4856e-13, 4.4201e-13, 5.2481e-13 );
		vec3 pos = vec3( 1.6810e+06, 1.7953e+06, 2.2084e+06 );
		vec3 var = vec3( 4.3278e+09, 9.3046e+09, 6.6121e+09 );
		vec3 xyz = val * sqrt( 2.0 * PI * var ) * cos( pos * phase + shift ) * exp( - pow2( phase ) * var );
		xyz.x += 9.7470e-14 * sqrt( 2.0 * PI * 4.5282e+09 ) * cos( 2.2399e+06 * phase + shift[ 0 ] ) * exp( - 4.5282e+09 * pow2( phase ) );
		xyz /= 1.0685e-7;
		vec3 rgb = XYZ_TO_REC709 * xyz;
		return rgb;
	}
	vec3 evalIridescence( float outsideIOR, float eta2, float cosTheta1, float thinFilmThickness, vec3 baseF0 ) {
		vec3 I;
		float iridescenceIOR = mix( outsideIOR, eta2, smoothstep( 0.0, 0.03, thinFilmThickness ) );
		float sinTheta2Sq = pow2( outsideIOR / iridescenceIOR ) * ( 1.0 - pow2( cosTheta1 ) );
		float cosTheta2Sq = 1.0 - sinTheta2Sq;
		if ( cosTheta2Sq < 0.0 ) {
			return vec3( 1.0 );
		}
		float cosTheta2 = sqrt( cosTheta2Sq );
		float R0 = IorToFresnel0( iridescenceIOR, outsideIOR );
		float R12 = F_Schlick( R0, 1.0, cosTheta1 );
		float T121 = 1.0 - R12;
		float phi12 = 0.0;
		if ( iridescenceIOR < outsideIOR ) phi12 = PI;
		float phi21 = PI - phi12;
		vec3 baseIOR = Fresnel0ToIor( clamp( baseF0, 0.0, 0.9999 ) );		vec3 R1 = IorToFresnel0( baseIOR, iridescenceIOR );
		vec3 R23 = F_Schlick( R1, 1.0, cosTheta2 );
		vec3 phi23 = vec3( 0.0 );
		if ( baseIOR[ 0 ] < iridescenceIOR ) phi23[ 0 ] = PI;
		if ( baseIOR[ 1 ] < iridescenceIOR ) phi23[ 1 ] = PI;
		if ( baseIOR[ 2 ] < iridescenceIOR ) phi23[ 2 ] = PI;
		float OPD = 2.0 * iridescenceIOR * thinFilmThickness * cosTheta2;
		vec3 phi = vec3( phi21 ) + phi23;
		vec3 R123 = clamp( R12 * R23, 1e-5, 0.9999 );
		vec3 r123 = sqrt( R123 );
		vec3 Rs = pow2( T121 ) * R23 / ( vec3( 1.0 ) - R123 );
		vec3 C0 = R12 + Rs;
		I = C0;
		vec3 Cm = Rs - T121;
		for ( int m = 1; m <= 2; ++ m ) {
			Cm *= r123;
			vec3 Sm = 2.0 * evalSensitivity( float( m ) * OPD, float( m ) * phi );
			I += Cm * Sm;
		}
		return max( I, vec3( 0.0 ) );
	}
#endif`,VS=`#ifdef USE_BUMPMAP
	uniform sampler2D bumpMap;
	uniform float bumpScale;
	vec2 dHdxy_fwd() {
		vec2 dSTdx = dFdx( vBumpMapUv );
		vec2 dSTdy = dFdy( vBumpMapUv );
		float Hll = bumpScale * texture2D( bumpMap, vBumpMapUv ).x;
		float dBx = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdx ).x - Hll;
		float dBy = bumpScale * texture2D( bumpMap, vBumpMapUv + dSTdy ).x - Hll;
		return vec2( dBx, dBy );
	}
	vec3 perturbNormalArb( vec3 surf_pos, vec3 surf_norm, vec2 dHdxy, float faceDirection ) {
		vec3 vSigmaX = normalize( dFdx( surf_pos.xyz ) );
		vec3 vSigmaY = normalize( dFdy( surf_pos.xyz ) );
		vec3 vN = surf_norm;
		vec3 R1 = cross( vSigmaY, vN );
		vec3 R2 = cross( vN, vSigmaX );
		float fDet = dot( vSigmaX, R1 ) * faceDirection;
		vec3 vGrad = sign( fDet ) * ( dHdxy.x * R1 + dHdxy.y * R2 );
		return normalize( abs( fDet ) * surf_norm - vGrad );
	}
#endif`,HS=`#if NUM_CLIPPING_PLANES > 0
	vec4 plane;
	#ifdef ALPHA_TO_COVERAGE
		float distanceToPlane, distanceGradient;
		float clipOpacity = 1.0;
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
			distanceGradient = fwidth( distanceToPlane ) / 2.0;
			clipOpacity *= smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			if ( clipOpacity == 0.0 ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			float unionClipOpacity = 1.0;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				distanceToPlane = - dot( vClipPosition, plane.xyz ) + plane.w;
				distanceGradient = fwidth( distanceToPlane ) / 2.0;
				unionClipOpacity *= 1.0 - smoothstep( - distanceGradient, distanceGradient, distanceToPlane );
			}
			#pragma unroll_loop_end
			clipOpacity *= 1.0 - unionClipOpacity;
		#endif
		diffuseColor.a *= clipOpacity;
		if ( diffuseColor.a == 0.0 ) discard;
	#else
		#pragma unroll_loop_start
		for ( int i = 0; i < UNION_CLIPPING_PLANES; i ++ ) {
			plane = clippingPlanes[ i ];
			if ( dot( vClipPosition, plane.xyz ) > plane.w ) discard;
		}
		#pragma unroll_loop_end
		#if UNION_CLIPPING_PLANES < NUM_CLIPPING_PLANES
			bool clipped = true;
			#pragma unroll_loop_start
			for ( int i = UNION_CLIPPING_PLANES; i < NUM_CLIPPING_PLANES; i ++ ) {
				plane = clippingPlanes[ i ];
				clipped = ( dot( vClipPosition, plane.xyz ) > plane.w ) && clipped;
			}
			#pragma unroll_loop_end
			if ( clipped ) discard;
		#endif
	#endif
#endif`,WS=`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
	uniform vec4 clippingPlanes[ NUM_CLIPPING_PLANES ];
#endif`,XS=`#if NUM_CLIPPING_PLANES > 0
	varying vec3 vClipPosition;
#endif`,$S=`#if NUM_CLIPPING_PLANES > 0
	vClipPosition = - mvPosition.xyz;
#endif`,qS=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	diffuseColor *= vColor;
#endif`,YS=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA )
	varying vec4 vColor;
#endif`,JS=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	varying vec4 vColor;
#endif`,ZS=`#if defined( USE_COLOR ) || defined( USE_COLOR_ALPHA ) || defined( USE_INSTANCING_COLOR ) || defined( USE_BATCHING_COLOR )
	vColor = vec4( 1.0 );
#endif
#ifdef USE_COLOR_ALPHA
	vColor *= color;
#elif defined( USE_COLOR )
	vColor.rgb *= color;
#endif
#ifdef USE_INSTANCING_COLOR
	vColor.rgb *= instanceColor.rgb;
#endif
#ifdef USE_BATCHING_COLOR
	vColor *= getBatchingColor( getIndirectIndex( gl_DrawID ) );
#endif`,KS=`#define PI 3.141592653589793
#define PI2 6.283185307179586
#define PI_HALF 1.5707963267948966
#define RECIPROCAL_PI 0.3183098861837907
#define RECIPROCAL_PI2 0.15915494309189535
#define EPSILON 1e-6
#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
#define whiteComplement( a ) ( 1.0 - saturate( a ) )
float pow2( const in float x ) { return x*x; }
vec3 pow2( const in vec3 x ) { return x*x; }
float pow3( const in float x ) { return x*x*x; }
float pow4( const in float x ) { float x2 = x*x; return x2*x2; }
float max3( const in vec3 v ) { return max( max( v.x, v.y ), v.z ); }
float average( const in vec3 v ) { return dot( v, vec3( 0.3333333 ) ); }
highp float rand( const in vec2 uv ) {
	const highp float a = 12.9898, b = 78.233, c = 43758.5453;
	highp float dt = dot( uv.xy, vec2( a,b ) ), sn = mod( dt, PI );
	return fract( sin( sn ) * c );
}
#ifdef HIGH_PRECISION
	float precisionSafeLength( vec3 v ) { return length( v ); }
#else
	float precisionSafeLength( vec3 v ) {
		float maxComponent = max3( abs( v ) );
		return length( v / maxComponent ) * maxComponent;
	}
#endif
struct IncidentLight {
	vec3 color;
	vec3 direction;
	bool visible;
};
struct ReflectedLight {
	vec3 directDiffuse;
	vec3 directSpecular;
	vec3 indirectDiffuse;
	vec3 indirectSpecular;
};
#ifdef USE_ALPHAHASH
	varying vec3 vPosition;
#endif
vec3 transformDirection( in vec3 dir, in mat4 matrix ) {
	return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );
}
#define inverseTransformDirection transformDirectionByInverseViewMatrix
vec3 transformNormalByInverseViewMatrix( in vec3 normal, in mat4 viewMatrix ) {
	return normalize( ( vec4( normal, 0.0 ) * viewMatrix ).xyz );
}
vec3 transformDirectionByInverseViewMatrix( in vec3 dir, in mat4 viewMatrix ) {
	return normalize( ( vec4( dir, 0.0 ) * viewMatrix ).xyz );
}
bool isPerspectiveMatrix( mat4 m ) {
	return m[ 2 ][ 3 ] == - 1.0;
}
vec2 equirectUv( in vec3 dir ) {
	float u = atan( dir.z, dir.x ) * RECIPROCAL_PI2 + 0.5;
	float v = asin( clamp( dir.y, - 1.0, 1.0 ) ) * RECIPROCAL_PI + 0.5;
	return vec2( u, v );
}
vec3 BRDF_Lambert( const in vec3 diffuseColor ) {
	return RECIPROCAL_PI * diffuseColor;
}
vec3 F_Schlick( const in vec3 f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
}
float F_Schlick( const in float f0, const in float f90, const in float dotVH ) {
	float fresnel = exp2( ( - 5.55473 * dotVH - 6.98316 ) * dotVH );
	return f0 * ( 1.0 - fresnel ) + ( f90 * fresnel );
} // validated`,jS=`vec3 transformedNormal = objectNormal;
#ifdef USE_TANGENT
	vec3 transformedTangent = objectTangent;
#endif
#ifdef USE_BATCHING
	mat3 bm = mat3( batchingMatrix );
	transformedNormal /= vec3( dot( bm[ 0 ], bm[ 0 ] ), dot( bm[ 1 ], bm[ 1 ] ), dot( bm[ 2 ], bm[ 2 ] ) );
	transformedNormal = bm * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = bm * transformedTangent;
	#endif
#endif
#ifdef USE_INSTANCING
	mat3 im = mat3( instanceMatrix );
	transformedNormal /= vec3( dot( im[ 0 ], im[ 0 ] ), dot( im[ 1 ], im[ 1 ] ), dot( im[ 2 ], im[ 2 ] ) );
	transformedNormal = im * transformedNormal;
	#ifdef USE_TANGENT
		transformedTangent = im * transformedTangent;
	#endif
#endif
transformedNormal = normalMatrix * transformedNormal;
#ifdef FLIP_SIDED
	transformedNormal = - transformedNormal;
#endif
#ifdef USE_TANGENT
	transformedTangent = ( modelViewMatrix * vec4( transformedTangent, 0.0 ) ).xyz;
#endif`,QS=`#ifdef USE_DISPLACEMENTMAP
	uniform sampler2D displacementMap;
	uniform float displacementScale;
	uniform float displacementBias;
#endif`,tb=`#ifdef USE_DISPLACEMENTMAP
	transformed += normalize( objectNormal ) * ( texture2D( displacementMap, vDisplacementMapUv ).x * displacementScale + displacementBias );
#endif`,eb=`#ifdef USE_EMISSIVEMAP
	vec4 emissiveColor = texture2D( emissiveMap, vEmissiveMapUv );
	#ifdef DECODE_VIDEO_TEXTURE_EMISSIVE
		emissiveColor = sRGBTransferEOTF( emissiveColor );
	#endif
	totalEmissiveRadiance *= emissiveColor.rgb;
#endif`,nb=`#ifdef USE_EMISSIVEMAP
	uniform sampler2D emissiveMap;
#endif`,ib="gl_FragColor = linearToOutputTexel( gl_FragColor );",sb=`vec4 LinearTransferOETF( in vec4 value ) {
	return value;
}
vec4 sRGBTransferEOTF( in vec4 value ) {
	return vec4( mix( pow( value.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), value.rgb * 0.0773993808, vec3( lessThanEqual( value.rgb, vec3( 0.04045 ) ) ) ), value.a );
}
vec4 sRGBTransferOETF( in vec4 value ) {
	return vec4( mix( pow( value.rgb, vec3( 0.41666 ) ) * 1.055 - vec3( 0.055 ), value.rgb * 12.92, vec3( lessThanEqual( value.rgb, vec3( 0.0031308 ) ) ) ), value.a );
}`,rb=`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vec3 cameraToFrag;
		if ( isOrthographic ) {
			cameraToFrag = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToFrag = normalize( vWorldPosition - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vec3 reflectVec = reflect( cameraToFrag, worldNormal );
		#else
			vec3 reflectVec = refract( cameraToFrag, worldNormal, refractionRatio );
		#endif
	#else
		vec3 reflectVec = vReflect;
	#endif
	#ifdef ENVMAP_TYPE_CUBE
		vec4 envColor = textureCube( envMap, envMapRotation * reflectVec );
		#ifdef ENVMAP_BLENDING_MULTIPLY
			outgoingLight = mix( outgoingLight, outgoingLight * envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_MIX )
			outgoingLight = mix( outgoingLight, envColor.xyz, specularStrength * reflectivity );
		#elif defined( ENVMAP_BLENDING_ADD )
			outgoingLight += envColor.xyz * specularStrength * reflectivity;
		#endif
	#endif
#endif`,ob=`#ifdef USE_ENVMAP
	uniform float envMapIntensity;
	uniform mat3 envMapRotation;
	uniform samplerCube envMap;
	#ifdef ENVMAP_TYPE_PMREM
		float roughnessToMip( const in float roughness ) {
			float r = clamp( roughness, 0.0, 1.0 );
			return ENVMAP_MAX_LOD * r * ( 2.0 - r );
		}
	#endif
#endif`,ab=`#ifdef USE_ENVMAP
	uniform float reflectivity;
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		varying vec3 vWorldPosition;
		uniform float refractionRatio;
	#else
		varying vec3 vReflect;
	#endif
#endif`,lb=`#ifdef USE_ENVMAP
	#if defined( USE_BUMPMAP ) || defined( USE_NORMALMAP ) || defined( PHONG ) || defined( LAMBERT )
		#define ENV_WORLDPOS
	#endif
	#ifdef ENV_WORLDPOS
		
		varying vec3 vWorldPosition;
	#else
		varying vec3 vReflect;
		uniform float refractionRatio;
	#endif
#endif`,cb=`#ifdef USE_ENVMAP
	#ifdef ENV_WORLDPOS
		vWorldPosition = worldPosition.xyz;
	#else
		vec3 cameraToVertex;
		if ( isOrthographic ) {
			cameraToVertex = normalize( vec3( - viewMatrix[ 0 ][ 2 ], - viewMatrix[ 1 ][ 2 ], - viewMatrix[ 2 ][ 2 ] ) );
		} else {
			cameraToVertex = normalize( worldPosition.xyz - cameraPosition );
		}
		vec3 worldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
		#ifdef ENVMAP_MODE_REFLECTION
			vReflect = reflect( cameraToVertex, worldNormal );
		#else
			vReflect = refract( cameraToVertex, worldNormal, refractionRatio );
		#endif
	#endif
#endif`,hb=`#ifdef USE_FOG
	vFogDepth = - mvPosition.z;
#endif`,ub=`#ifdef USE_FOG
	varying float vFogDepth;
#endif`,db=`#ifdef USE_FOG
	#ifdef FOG_EXP2
		float fogFactor = 1.0 - exp( - fogDensity * fogDensity * vFogDepth * vFogDepth );
	#else
		float fogFactor = smoothstep( fogNear, fogFar, vFogDepth );
	#endif
	gl_FragColor.rgb = mix( gl_FragColor.rgb, fogColor, fogFactor );
#endif`,fb=`#ifdef USE_FOG
	uniform vec3 fogColor;
	varying float vFogDepth;
	#ifdef FOG_EXP2
		uniform float fogDensity;
	#else
		uniform float fogNear;
		uniform float fogFar;
	#endif
#endif`,pb=`#ifdef USE_GRADIENTMAP
	uniform sampler2D gradientMap;
#endif
vec3 getGradientIrradiance( vec3 normal, vec3 lightDirection ) {
	float dotNL = dot( normal, lightDirection );
	vec2 coord = vec2( dotNL * 0.5 + 0.5, 0.0 );
	#ifdef USE_GRADIENTMAP
		return vec3( texture2D( gradientMap, coord ).r );
	#else
		vec2 fw = fwidth( coord ) * 0.5;
		return mix( vec3( 0.7 ), vec3( 1.0 ), smoothstep( 0.7 - fw.x, 0.7 + fw.x, coord.x ) );
	#endif
}`,mb=`#ifdef USE_LIGHTMAP
	uniform sampler2D lightMap;
	uniform float lightMapIntensity;
#endif`,gb=`LambertMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularStrength = specularStrength;`,_b=`varying vec3 vViewPosition;
struct LambertMaterial {
	vec3 diffuseColor;
	float specularStrength;
};
void RE_Direct_Lambert( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Lambert( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in LambertMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Lambert
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Lambert`,xb=`uniform bool receiveShadow;
uniform vec3 ambientLightColor;
#if defined( USE_LIGHT_PROBES )
	uniform vec3 lightProbe[ 9 ];
#endif
vec3 shGetIrradianceAt( in vec3 normal, in vec3 shCoefficients[ 9 ] ) {
	float x = normal.x, y = normal.y, z = normal.z;
	vec3 result = shCoefficients[ 0 ] * 0.886227;
	result += shCoefficients[ 1 ] * 2.0 * 0.511664 * y;
	result += shCoefficients[ 2 ] * 2.0 * 0.511664 * z;
	result += shCoefficients[ 3 ] * 2.0 * 0.511664 * x;
	result += shCoefficients[ 4 ] * 2.0 * 0.429043 * x * y;
	result += shCoefficients[ 5 ] * 2.0 * 0.429043 * y * z;
	result += shCoefficients[ 6 ] * ( 0.743125 * z * z - 0.247708 );
	result += shCoefficients[ 7 ] * 2.0 * 0.429043 * x * z;
	result += shCoefficients[ 8 ] * 0.429043 * ( x * x - y * y );
	return result;
}
vec3 getLightProbeIrradiance( const in vec3 lightProbe[ 9 ], const in vec3 normal ) {
	vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec3 irradiance = shGetIrradianceAt( worldNormal, lightProbe );
	return irradiance;
}
vec3 getAmbientLightIrradiance( const in vec3 ambientLightColor ) {
	vec3 irradiance = ambientLightColor;
	return irradiance;
}
float getDistanceAttenuation( const in float lightDistance, const in float cutoffDistance, const in float decayExponent ) {
	float distanceFalloff = 1.0 / max( pow( lightDistance, decayExponent ), 0.01 );
	if ( cutoffDistance > 0.0 ) {
		distanceFalloff *= pow2( saturate( 1.0 - pow4( lightDistance / cutoffDistance ) ) );
	}
	return distanceFalloff;
}
float getSpotAttenuation( const in float coneCosine, const in float penumbraCosine, const in float angleCosine ) {
	return smoothstep( coneCosine, penumbraCosine, angleCosine );
}
#if NUM_SUN_LIGHTS > 0
	struct SunLight {
		vec3 direction;
		vec3 color;
	};
	uniform SunLight sunLights[ NUM_SUN_LIGHTS ];
	void getSunLightInfo( const in SunLight sunLight, out IncidentLight light ) {
		light.color = sunLight.color;
		light.direction = sunLight.direction;
		light.visible = true;
	}
#endif
#if NUM_DIR_LIGHTS > 0
	struct DirectionalLight {
		vec3 direction;
		vec3 color;
	};
	uniform DirectionalLight directionalLights[ NUM_DIR_LIGHTS ];
	void getDirectionalLightInfo( const in DirectionalLight directionalLight, out IncidentLight light ) {
		light.color = directionalLight.color;
		light.direction = directionalLight.direction;
		light.visible = true;
	}
#endif
#if NUM_POINT_LIGHTS > 0
	struct PointLight {
		vec3 position;
		vec3 color;
		float distance;
		float decay;
	};
	uniform PointLight pointLights[ NUM_POINT_LIGHTS ];
	void getPointLightInfo( const in PointLight pointLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = pointLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float lightDistance = length( lVector );
		light.color = pointLight.color;
		light.color *= getDistanceAttenuation( lightDistance, pointLight.distance, pointLight.decay );
		light.visible = ( light.color != vec3( 0.0 ) );
	}
#endif
#if NUM_SPOT_LIGHTS > 0
	struct SpotLight {
		vec3 position;
		vec3 direction;
		vec3 color;
		float distance;
		float decay;
		float coneCos;
		float penumbraCos;
	};
	uniform SpotLight spotLights[ NUM_SPOT_LIGHTS ];
	void getSpotLightInfo( const in SpotLight spotLight, const in vec3 geometryPosition, out IncidentLight light ) {
		vec3 lVector = spotLight.position - geometryPosition;
		light.direction = normalize( lVector );
		float angleCos = dot( light.direction, spotLight.direction );
		float spotAttenuation = getSpotAttenuation( spotLight.coneCos, spotLight.penumbraCos, angleCos );
		if ( spotAttenuation > 0.0 ) {
			float lightDistance = length( lVector );
			light.color = spotLight.color * spotAttenuation;
			light.color *= getDistanceAttenuation( lightDistance, spotLight.distance, spotLight.decay );
			light.visible = ( light.color != vec3( 0.0 ) );
		} else {
			light.color = vec3( 0.0 );
			light.visible = false;
		}
	}
#endif
#if NUM_RECT_AREA_LIGHTS > 0
	struct RectAreaLight {
		vec3 color;
		vec3 position;
		vec3 halfWidth;
		vec3 halfHeight;
	};
	uniform sampler2D ltc_1;	uniform sampler2D ltc_2;
	uniform RectAreaLight rectAreaLights[ NUM_RECT_AREA_LIGHTS ];
#endif
#if NUM_HEMI_LIGHTS > 0
	struct HemisphereLight {
		vec3 direction;
		vec3 skyColor;
		vec3 groundColor;
	};
	uniform HemisphereLight hemisphereLights[ NUM_HEMI_LIGHTS ];
	vec3 getHemisphereLightIrradiance( const in HemisphereLight hemiLight, const in vec3 normal ) {
		float dotNL = dot( normal, hemiLight.direction );
		float hemiDiffuseWeight = 0.5 * dotNL + 0.5;
		vec3 irradiance = mix( hemiLight.groundColor, hemiLight.skyColor, hemiDiffuseWeight );
		return irradiance;
	}
#endif
#include <lightprobes_pars_fragment>`,yb=`#ifdef USE_ENVMAP
	vec3 getIBLIrradiance( const in vec3 normal ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 worldNormal = transformNormalByInverseViewMatrix( normal, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * worldNormal, ENVMAP_MAX_LOD );
			return PI * envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	vec3 getIBLRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
		#ifdef ENVMAP_TYPE_PMREM
			vec3 reflectVec = reflect( - viewDir, normal );
			reflectVec = normalize( mix( reflectVec, normal, pow4( roughness ) ) );
			reflectVec = transformDirectionByInverseViewMatrix( reflectVec, viewMatrix );
			vec4 envMapColor = textureLod( envMap, envMapRotation * reflectVec, roughnessToMip( roughness ) );
			return envMapColor.rgb * envMapIntensity;
		#else
			return vec3( 0.0 );
		#endif
	}
	#ifdef USE_RETROREFLECTION
		vec3 getIBLRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 retroVec = normalize( mix( viewDir, normal, pow4( roughness ) ) );
				retroVec = transformDirectionByInverseViewMatrix( retroVec, viewMatrix );
				vec4 envMapColor = textureLod( envMap, envMapRotation * retroVec, roughnessToMip( roughness ) );
				return envMapColor.rgb * envMapIntensity;
			#else
				return vec3( 0.0 );
			#endif
		}
	#endif
	#ifdef USE_ANISOTROPY
		vec3 getIBLAnisotropyRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
			#ifdef ENVMAP_TYPE_PMREM
				vec3 bentNormal = cross( bitangent, viewDir );
				bentNormal = normalize( cross( bentNormal, bitangent ) );
				bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
				return getIBLRadiance( viewDir, bentNormal, roughness );
			#else
				return vec3( 0.0 );
			#endif
		}
		#ifdef USE_RETROREFLECTION
			vec3 getIBLAnisotropyRetroRadiance( const in vec3 viewDir, const in vec3 normal, const in float roughness, const in vec3 bitangent, const in float anisotropy ) {
				#ifdef ENVMAP_TYPE_PMREM
					vec3 bentNormal = cross( bitangent, viewDir );
					bentNormal = normalize( cross( bentNormal, bitangent ) );
					bentNormal = normalize( mix( bentNormal, normal, pow2( pow2( 1.0 - anisotropy * ( 1.0 - roughness ) ) ) ) );
					return getIBLRetroRadiance( viewDir, bentNormal, roughness );
				#else
					return vec3( 0.0 );
				#endif
			}
		#endif
	#endif
#endif`,vb=`ToonMaterial material;
material.diffuseColor = diffuseColor.rgb;`,Mb=`varying vec3 vViewPosition;
struct ToonMaterial {
	vec3 diffuseColor;
};
void RE_Direct_Toon( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 irradiance = getGradientIrradiance( geometryNormal, directLight.direction ) * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
void RE_IndirectDiffuse_Toon( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in ToonMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_Toon
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Toon`,Sb=`BlinnPhongMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.specularColor = specular;
material.specularShininess = shininess;
material.specularStrength = specularStrength;`,bb=`varying vec3 vViewPosition;
struct BlinnPhongMaterial {
	vec3 diffuseColor;
	vec3 specularColor;
	float specularShininess;
	float specularStrength;
};
void RE_Direct_BlinnPhong( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	reflectedLight.directDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
	reflectedLight.directSpecular += irradiance * BRDF_BlinnPhong( directLight.direction, geometryViewDir, geometryNormal, material.specularColor, material.specularShininess ) * material.specularStrength;
}
void RE_IndirectDiffuse_BlinnPhong( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in BlinnPhongMaterial material, inout ReflectedLight reflectedLight ) {
	reflectedLight.indirectDiffuse += irradiance * BRDF_Lambert( material.diffuseColor );
}
#define RE_Direct				RE_Direct_BlinnPhong
#define RE_IndirectDiffuse		RE_IndirectDiffuse_BlinnPhong`,wb=`PhysicalMaterial material;
material.diffuseColor = diffuseColor.rgb;
material.diffuseContribution = diffuseColor.rgb * ( 1.0 - metalnessFactor );
material.metalness = metalnessFactor;
vec3 dxy = max( abs( dFdx( nonPerturbedNormal ) ), abs( dFdy( nonPerturbedNormal ) ) );
float geometryRoughness = max( max( dxy.x, dxy.y ), dxy.z );
material.roughness = max( roughnessFactor, 0.045 );
material.roughness += geometryRoughness;
material.roughness = min( material.roughness, 1.0 );
#ifdef USE_DIFFUSE_ROUGHNESS
	float diffuseRoughnessFactor = diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		diffuseRoughnessFactor *= texture2D( diffuseRoughnessMap, vDiffuseRoughnessMapUv ).r;
	#endif
	material.diffuseRoughness = saturate( diffuseRoughnessFactor );
#endif
#ifdef IOR
	material.ior = ior;
	#ifdef USE_SPECULAR
		float specularIntensityFactor = specularIntensity;
		vec3 specularColorFactor = specularColor;
		#ifdef USE_SPECULAR_COLORMAP
			specularColorFactor *= texture2D( specularColorMap, vSpecularColorMapUv ).rgb;
		#endif
		#ifdef USE_SPECULAR_INTENSITYMAP
			specularIntensityFactor *= texture2D( specularIntensityMap, vSpecularIntensityMapUv ).a;
		#endif
		material.specularF90 = mix( specularIntensityFactor, 1.0, metalnessFactor );
	#else
		float specularIntensityFactor = 1.0;
		vec3 specularColorFactor = vec3( 1.0 );
		material.specularF90 = 1.0;
	#endif
	material.specularColor = min( pow2( ( material.ior - 1.0 ) / ( material.ior + 1.0 ) ) * specularColorFactor, vec3( 1.0 ) ) * specularIntensityFactor;
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
#else
	material.specularColor = vec3( 0.04 );
	material.specularColorBlended = mix( material.specularColor, diffuseColor.rgb, metalnessFactor );
	material.specularF90 = 1.0;
#endif
#ifdef USE_CLEARCOAT
	material.clearcoat = clearcoat;
	material.clearcoatRoughness = clearcoatRoughness;
	material.clearcoatF0 = vec3( 0.04 );
	material.clearcoatF90 = 1.0;
	#ifdef USE_CLEARCOATMAP
		material.clearcoat *= texture2D( clearcoatMap, vClearcoatMapUv ).x;
	#endif
	#ifdef USE_CLEARCOAT_ROUGHNESSMAP
		material.clearcoatRoughness *= texture2D( clearcoatRoughnessMap, vClearcoatRoughnessMapUv ).y;
	#endif
	material.clearcoat = saturate( material.clearcoat );	material.clearcoatRoughness = max( material.clearcoatRoughness, 0.045 );
	material.clearcoatRoughness += geometryRoughness;
	material.clearcoatRoughness = min( material.clearcoatRoughness, 1.0 );
#endif
#ifdef USE_DISPERSION
	material.dispersion = dispersion;
#endif
#ifdef USE_RETROREFLECTION
	material.retroreflectivity = retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	material.iridescence = iridescence;
	material.iridescenceIOR = iridescenceIOR;
	#ifdef USE_IRIDESCENCEMAP
		material.iridescence *= texture2D( iridescenceMap, vIridescenceMapUv ).r;
	#endif
	#ifdef USE_IRIDESCENCE_THICKNESSMAP
		material.iridescenceThickness = (iridescenceThicknessMaximum - iridescenceThicknessMinimum) * texture2D( iridescenceThicknessMap, vIridescenceThicknessMapUv ).g + iridescenceThicknessMinimum;
	#else
		material.iridescenceThickness = iridescenceThicknessMaximum;
	#endif
#endif
#ifdef USE_SHEEN
	material.sheenColor = sheenColor;
	#ifdef USE_SHEEN_COLORMAP
		material.sheenColor *= texture2D( sheenColorMap, vSheenColorMapUv ).rgb;
	#endif
	material.sheenRoughness = clamp( sheenRoughness, 0.0001, 1.0 );
	#ifdef USE_SHEEN_ROUGHNESSMAP
		material.sheenRoughness *= texture2D( sheenRoughnessMap, vSheenRoughnessMapUv ).a;
	#endif
#endif
#ifdef USE_ANISOTROPY
	#ifdef USE_ANISOTROPYMAP
		mat2 anisotropyMat = mat2( anisotropyVector.x, anisotropyVector.y, - anisotropyVector.y, anisotropyVector.x );
		vec3 anisotropyPolar = texture2D( anisotropyMap, vAnisotropyMapUv ).rgb;
		vec2 anisotropyV = anisotropyMat * normalize( 2.0 * anisotropyPolar.rg - vec2( 1.0 ) ) * anisotropyPolar.b;
	#else
		vec2 anisotropyV = anisotropyVector;
	#endif
	material.anisotropy = length( anisotropyV );
	if( material.anisotropy == 0.0 ) {
		anisotropyV = vec2( 1.0, 0.0 );
	} else {
		anisotropyV /= material.anisotropy;
		material.anisotropy = saturate( material.anisotropy );
	}
	material.alphaT = mix( pow2( material.roughness ), 1.0, pow2( material.anisotropy ) );
	material.anisotropyT = tbn[ 0 ] * anisotropyV.x + tbn[ 1 ] * anisotropyV.y;
	material.anisotropyB = tbn[ 1 ] * anisotropyV.x - tbn[ 0 ] * anisotropyV.y;
#endif`,Tb=`uniform sampler2D dfgLUT;
struct PhysicalMaterial {
	vec3 diffuseColor;
	vec3 diffuseContribution;
	vec3 specularColor;
	vec3 specularColorBlended;
	float roughness;
	float metalness;
	float specularF90;
	float dispersion;
	vec2 dfg;
	vec3 multiScatteringCompensation;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float diffuseRoughness;
	#endif
	#ifdef USE_RETROREFLECTION
		float retroreflectivity;
	#endif
	#ifdef USE_CLEARCOAT
		float clearcoat;
		float clearcoatRoughness;
		vec3 clearcoatF0;
		float clearcoatF90;
	#endif
	#ifdef USE_IRIDESCENCE
		float iridescence;
		float iridescenceIOR;
		float iridescenceThickness;
		vec3 iridescenceFresnel;
		vec3 iridescenceF0Dielectric;
		vec3 iridescenceF0Metallic;
	#endif
	#ifdef USE_SHEEN
		vec3 sheenColor;
		float sheenRoughness;
	#endif
	#ifdef IOR
		float ior;
	#endif
	#ifdef USE_TRANSMISSION
		float transmission;
		float transmissionAlpha;
		float thickness;
		float attenuationDistance;
		vec3 attenuationColor;
	#endif
	#ifdef USE_ANISOTROPY
		float anisotropy;
		float alphaT;
		vec3 anisotropyT;
		vec3 anisotropyB;
	#endif
};
vec3 clearcoatSpecularDirect = vec3( 0.0 );
vec3 clearcoatSpecularIndirect = vec3( 0.0 );
vec3 sheenSpecularDirect = vec3( 0.0 );
vec3 sheenSpecularIndirect = vec3(0.0 );
vec3 Schlick_to_F0( const in vec3 f, const in float f90, const in float dotVH ) {
    float x = clamp( 1.0 - dotVH, 0.0, 1.0 );
    float x2 = x * x;
    float x5 = clamp( x * x2 * x2, 0.0, 0.9999 );
    return ( f - vec3( f90 ) * x5 ) / ( 1.0 - x5 );
}
#ifdef USE_DIFFUSE_ROUGHNESS
	const float EON_EPSILON = 1e-7;
	float FON_DirectionalAlbedo( const in float mu, const in float roughness, const in float A ) {
		float muComp = 1.0 - mu;
		float gOverPi = muComp * ( 0.0571085289 + muComp * ( 0.491881867 + muComp * ( - 0.332181442 + muComp * 0.0714429953 ) ) );
		return A * ( 1.0 + roughness * gOverPi );
	}
	vec3 BRDF_EON( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in vec3 diffuseColor, const in float roughness ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return BRDF_Lambert( rho );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float s = dot( lightDir, viewDir ) - dotNL * dotNV;
		float sOverT = ( s > 0.0 ) ? s / max( max( dotNL, dotNV ), EON_EPSILON ) : s;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		vec3 singleScatter = rho * RECIPROCAL_PI * A * ( 1.0 + roughness * sOverT );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		float albedoV = FON_DirectionalAlbedo( dotNV, roughness, A );
		float albedoL = FON_DirectionalAlbedo( dotNL, roughness, A );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		vec3 multiScatter = rhoMultiScatter * RECIPROCAL_PI
			* max( EON_EPSILON, 1.0 - albedoV )
			* max( EON_EPSILON, 1.0 - albedoL )
			/ max( EON_EPSILON, 1.0 - averageAlbedo );
		return singleScatter + multiScatter;
	}
	vec3 EON_DirectionalAlbedo( const in vec3 diffuseColor, const in float roughness, const in float dotNV ) {
		vec3 rho = saturate( diffuseColor );
		if ( roughness <= EON_EPSILON ) return rho;
		float A = 1.0 / ( 1.0 + ( 0.5 - 2.0 / ( 3.0 * PI ) ) * roughness );
		float directionalAlbedo = FON_DirectionalAlbedo( dotNV, roughness, A );
		float averageAlbedo = A * ( 1.0 + ( 2.0 / 3.0 - 28.0 / ( 15.0 * PI ) ) * roughness );
		vec3 rhoMultiScatter = rho * rho * averageAlbedo / max( vec3( EON_EPSILON ), vec3( 1.0 ) - rho * ( 1.0 - averageAlbedo ) );
		return rho * directionalAlbedo + rhoMultiScatter * ( 1.0 - directionalAlbedo );
	}
#endif
float V_GGX_SmithCorrelated( const in float alpha, const in float dotNL, const in float dotNV ) {
	float a2 = pow2( alpha );
	float gv = dotNL * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNV ) );
	float gl = dotNV * sqrt( a2 + ( 1.0 - a2 ) * pow2( dotNL ) );
	return 0.5 / max( gv + gl, EPSILON );
}
float D_GGX( const in float alpha, const in float dotNH ) {
	float a2 = pow2( alpha );
	float denom = pow2( dotNH ) * ( a2 - 1.0 ) + 1.0;
	return RECIPROCAL_PI * a2 / pow2( denom );
}
#ifdef USE_ANISOTROPY
	float V_GGX_SmithCorrelated_Anisotropic( const in float alphaT, const in float alphaB, const in float dotTV, const in float dotBV, const in float dotTL, const in float dotBL, const in float dotNV, const in float dotNL ) {
		float gv = dotNL * length( vec3( alphaT * dotTV, alphaB * dotBV, dotNV ) );
		float gl = dotNV * length( vec3( alphaT * dotTL, alphaB * dotBL, dotNL ) );
		return 0.5 / max( gv + gl, EPSILON );
	}
	float D_GGX_Anisotropic( const in float alphaT, const in float alphaB, const in float dotNH, const in float dotTH, const in float dotBH ) {
		float a2 = alphaT * alphaB;
		highp vec3 v = vec3( alphaB * dotTH, alphaT * dotBH, a2 * dotNH );
		highp float v2 = dot( v, v );
		float w2 = a2 / v2;
		return RECIPROCAL_PI * a2 * pow2 ( w2 );
	}
#endif
#ifdef USE_CLEARCOAT
	vec3 BRDF_GGX_Clearcoat( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material) {
		vec3 f0 = material.clearcoatF0;
		float f90 = material.clearcoatF90;
		float roughness = max( material.clearcoatRoughness, 0.045 );
		float alpha = pow2( roughness );
		vec3 halfDir = normalize( lightDir + viewDir );
		float dotNL = saturate( dot( normal, lightDir ) );
		float dotNV = saturate( dot( normal, viewDir ) );
		float dotNH = saturate( dot( normal, halfDir ) );
		float dotVH = saturate( dot( viewDir, halfDir ) );
		vec3 F = F_Schlick( f0, f90, dotVH );
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
		return F * ( V * D );
	}
#endif
vec3 BRDF_GGX( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, const in PhysicalMaterial material ) {
	vec3 f0 = material.specularColorBlended;
	float f90 = material.specularF90;
	float roughness = max( material.roughness, 0.045 );
	float alpha = pow2( roughness );
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float dotVH = saturate( dot( viewDir, halfDir ) );
	vec3 F = F_Schlick( f0, f90, dotVH );
	#ifdef USE_IRIDESCENCE
		F = mix( F, material.iridescenceFresnel, material.iridescence );
	#endif
	#ifdef USE_ANISOTROPY
		float dotTL = dot( material.anisotropyT, lightDir );
		float dotTV = dot( material.anisotropyT, viewDir );
		float dotTH = dot( material.anisotropyT, halfDir );
		float dotBL = dot( material.anisotropyB, lightDir );
		float dotBV = dot( material.anisotropyB, viewDir );
		float dotBH = dot( material.anisotropyB, halfDir );
		float alphaT = max( material.alphaT, alpha );
		float V = V_GGX_SmithCorrelated_Anisotropic( alphaT, alpha, dotTV, dotBV, dotTL, dotBL, dotNV, dotNL );
		float D = D_GGX_Anisotropic( alphaT, alpha, dotNH, dotTH, dotBH );
	#else
		float V = V_GGX_SmithCorrelated( alpha, dotNL, dotNV );
		float D = D_GGX( alpha, dotNH );
	#endif
	return F * ( V * D );
}
vec2 LTC_Uv( const in vec3 N, const in vec3 V, const in float roughness ) {
	const float LUT_SIZE = 64.0;
	const float LUT_SCALE = ( LUT_SIZE - 1.0 ) / LUT_SIZE;
	const float LUT_BIAS = 0.5 / LUT_SIZE;
	float dotNV = saturate( dot( N, V ) );
	vec2 uv = vec2( roughness, sqrt( 1.0 - dotNV ) );
	uv = uv * LUT_SCALE + LUT_BIAS;
	return uv;
}
float LTC_ClippedSphereFormFactor( const in vec3 f ) {
	float l = length( f );
	return max( ( l * l + f.z ) / ( l + 1.0 ), 0.0 );
}
vec3 LTC_EdgeVectorFormFactor( const in vec3 v1, const in vec3 v2 ) {
	float x = dot( v1, v2 );
	float y = abs( x );
	float a = 0.8543985 + ( 0.4965155 + 0.0145206 * y ) * y;
	float b = 3.4175940 + ( 4.1616724 + y ) * y;
	float v = a / b;
	float theta_sintheta = ( x > 0.0 ) ? v : 0.5 * inversesqrt( max( 1.0 - x * x, 1e-7 ) ) - v;
	return cross( v1, v2 ) * theta_sintheta;
}
vec3 LTC_Evaluate( const in vec3 N, const in vec3 V, const in vec3 P, const in mat3 mInv, const in vec3 rectCoords[ 4 ] ) {
	vec3 v1 = rectCoords[ 1 ] - rectCoords[ 0 ];
	vec3 v2 = rectCoords[ 3 ] - rectCoords[ 0 ];
	vec3 lightNormal = cross( v1, v2 );
	if( dot( lightNormal, P - rectCoords[ 0 ] ) < 0.0 ) return vec3( 0.0 );
	vec3 T1, T2;
	T1 = normalize( V - N * dot( V, N ) );
	T2 = - cross( N, T1 );
	mat3 mat = mInv * transpose( mat3( T1, T2, N ) );
	vec3 coords[ 4 ];
	coords[ 0 ] = mat * ( rectCoords[ 0 ] - P );
	coords[ 1 ] = mat * ( rectCoords[ 1 ] - P );
	coords[ 2 ] = mat * ( rectCoords[ 2 ] - P );
	coords[ 3 ] = mat * ( rectCoords[ 3 ] - P );
	coords[ 0 ] = normalize( coords[ 0 ] );
	coords[ 1 ] = normalize( coords[ 1 ] );
	coords[ 2 ] = normalize( coords[ 2 ] );
	coords[ 3 ] = normalize( coords[ 3 ] );
	vec3 vectorFormFactor = vec3( 0.0 );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 0 ], coords[ 1 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 1 ], coords[ 2 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 2 ], coords[ 3 ] );
	vectorFormFactor += LTC_EdgeVectorFormFactor( coords[ 3 ], coords[ 0 ] );
	float result = LTC_ClippedSphereFormFactor( vectorFormFactor );
	return vec3( result );
}
#if defined( USE_SHEEN )
float D_Charlie( float roughness, float dotNH ) {
	float alpha = pow2( roughness );
	float invAlpha = 1.0 / alpha;
	float cos2h = dotNH * dotNH;
	float sin2h = max( 1.0 - cos2h, 0.0078125 );
	return ( 2.0 + invAlpha ) * pow( sin2h, invAlpha * 0.5 ) / ( 2.0 * PI );
}
float V_Neubelt( float dotNV, float dotNL ) {
	return saturate( 1.0 / ( 4.0 * ( dotNL + dotNV - dotNL * dotNV ) ) );
}
vec3 BRDF_Sheen( const in vec3 lightDir, const in vec3 viewDir, const in vec3 normal, vec3 sheenColor, const in float sheenRoughness ) {
	vec3 halfDir = normalize( lightDir + viewDir );
	float dotNL = saturate( dot( normal, lightDir ) );
	float dotNV = saturate( dot( normal, viewDir ) );
	float dotNH = saturate( dot( normal, halfDir ) );
	float D = D_Charlie( sheenRoughness, dotNH );
	float V = V_Neubelt( dotNV, dotNL );
	return sheenColor * ( D * V );
}
#endif
float IBLSheenBRDF( const in vec3 normal, const in vec3 viewDir, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	float r2 = roughness * roughness;
	float rInv = 1.0 / ( roughness + 0.1 );
	float a = -1.9362 + 1.0678 * roughness + 0.4573 * r2 - 0.8469 * rInv;
	float b = -0.6014 + 0.5538 * roughness - 0.4670 * r2 - 0.1255 * rInv;
	float DG = exp( a * dotNV + b );
	return saturate( DG );
}
vec3 EnvironmentBRDF( const in vec3 normal, const in vec3 viewDir, const in vec3 specularColor, const in float specularF90, const in float roughness ) {
	float dotNV = saturate( dot( normal, viewDir ) );
	vec2 fab = texture2D( dfgLUT, vec2( roughness, dotNV ) ).rg;
	return specularColor * fab.x + specularF90 * fab.y;
}
#ifdef USE_IRIDESCENCE
void computeMultiscatteringIridescence( const in vec2 fab, const in vec3 specularColor, const in float specularF90, const in float iridescence, const in vec3 iridescenceF0, inout vec3 singleScatter, inout vec3 multiScatter ) {
#else
void computeMultiscattering( const in vec2 fab, const in vec3 specularColor, const in float specularF90, inout vec3 singleScatter, inout vec3 multiScatter ) {
#endif
	#ifdef USE_IRIDESCENCE
		vec3 Fr = mix( specularColor, iridescenceF0, iridescence );
	#else
		vec3 Fr = specularColor;
	#endif
	vec3 FssEss = Fr * fab.x + specularF90 * fab.y;
	float Ess = fab.x + fab.y;
	float Ems = 1.0 - Ess;
	vec3 Favg = Fr + ( 1.0 - Fr ) * 0.047619;	vec3 Fms = FssEss * Favg / ( 1.0 - Ems * Favg );
	singleScatter += FssEss;
	multiScatter += Fms * Ems;
}
#if NUM_RECT_AREA_LIGHTS > 0
	void RE_Direct_RectArea_Physical( const in RectAreaLight rectAreaLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
		vec3 normal = geometryNormal;
		vec3 viewDir = geometryViewDir;
		vec3 position = geometryPosition;
		vec3 lightPos = rectAreaLight.position;
		vec3 halfWidth = rectAreaLight.halfWidth;
		vec3 halfHeight = rectAreaLight.halfHeight;
		vec3 lightColor = rectAreaLight.color;
		float roughness = material.roughness;
		vec3 rectCoords[ 4 ];
		rectCoords[ 0 ] = lightPos + halfWidth - halfHeight;		rectCoords[ 1 ] = lightPos - halfWidth - halfHeight;
		rectCoords[ 2 ] = lightPos - halfWidth + halfHeight;
		rectCoords[ 3 ] = lightPos + halfWidth + halfHeight;
		vec2 uv = LTC_Uv( normal, viewDir, roughness );
		vec4 t1 = texture2D( ltc_1, uv );
		vec4 t2 = texture2D( ltc_2, uv );
		mat3 mInv = mat3(
			vec3( t1.x, 0, t1.y ),
			vec3(    0, 1,    0 ),
			vec3( t1.z, 0, t1.w )
		);
		vec3 fresnel = ( material.specularColorBlended * t2.x + ( material.specularF90 - material.specularColorBlended ) * t2.y );
		reflectedLight.directSpecular += lightColor * fresnel * LTC_Evaluate( normal, viewDir, position, mInv, rectCoords );
		reflectedLight.directDiffuse += lightColor * material.diffuseContribution * LTC_Evaluate( normal, viewDir, position, mat3( 1.0 ), rectCoords );
		#ifdef USE_CLEARCOAT
			vec3 Ncc = geometryClearcoatNormal;
			vec2 uvClearcoat = LTC_Uv( Ncc, viewDir, material.clearcoatRoughness );
			vec4 t1Clearcoat = texture2D( ltc_1, uvClearcoat );
			vec4 t2Clearcoat = texture2D( ltc_2, uvClearcoat );
			mat3 mInvClearcoat = mat3(
				vec3( t1Clearcoat.x, 0, t1Clearcoat.y ),
				vec3(             0, 1,             0 ),
				vec3( t1Clearcoat.z, 0, t1Clearcoat.w )
			);
			vec3 fresnelClearcoat = material.clearcoatF0 * t2Clearcoat.x + ( material.clearcoatF90 - material.clearcoatF0 ) * t2Clearcoat.y;
			clearcoatSpecularDirect += lightColor * fresnelClearcoat * LTC_Evaluate( Ncc, viewDir, position, mInvClearcoat, rectCoords );
		#endif
	}
#endif
void RE_Direct_Physical( const in IncidentLight directLight, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	float dotNL = saturate( dot( geometryNormal, directLight.direction ) );
	vec3 irradiance = dotNL * directLight.color;
	#ifdef USE_CLEARCOAT
		float dotNLcc = saturate( dot( geometryClearcoatNormal, directLight.direction ) );
		vec3 ccIrradiance = dotNLcc * directLight.color;
		clearcoatSpecularDirect += ccIrradiance * BRDF_GGX_Clearcoat( directLight.direction, geometryViewDir, geometryClearcoatNormal, material );
	#endif
	#ifdef USE_SHEEN
 
 		sheenSpecularDirect += irradiance * BRDF_Sheen( directLight.direction, geometryViewDir, geometryNormal, material.sheenColor, material.sheenRoughness );
 
 		float sheenAlbedoV = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
 		float sheenAlbedoL = IBLSheenBRDF( geometryNormal, directLight.direction, material.sheenRoughness );
 
 		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * max( sheenAlbedoV, sheenAlbedoL );
 
 		irradiance *= sheenEnergyComp;
 
 	#endif
	vec3 specularBRDF = BRDF_GGX( directLight.direction, geometryViewDir, geometryNormal, material );
	#ifdef USE_RETROREFLECTION
		vec3 retroViewDir = reflect( - geometryViewDir, geometryNormal );
		vec3 retroSpecularBRDF = BRDF_GGX( directLight.direction, retroViewDir, geometryNormal, material );
		specularBRDF = mix( specularBRDF, retroSpecularBRDF, saturate( material.retroreflectivity ) );
	#endif
	reflectedLight.directSpecular += irradiance * specularBRDF * material.multiScatteringCompensation;
	vec3 halfDir = normalize( directLight.direction + geometryViewDir );
	float dotVH = saturate( dot( geometryViewDir, halfDir ) );
	vec3 F = F_Schlick( material.specularColor, material.specularF90, dotVH );
	#ifdef USE_RETROREFLECTION
		vec3 retroHalfDir = normalize( directLight.direction + retroViewDir );
		float dotRetroVH = saturate( dot( retroViewDir, retroHalfDir ) );
		vec3 retroF = F_Schlick( material.specularColor, material.specularF90, dotRetroVH );
		F = mix( F, retroF, saturate( material.retroreflectivity ) );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		vec3 diffuseBRDF = BRDF_EON( directLight.direction, geometryViewDir, geometryNormal, material.diffuseColor, material.diffuseRoughness ) * ( 1.0 - material.metalness );
	#else
		vec3 diffuseBRDF = BRDF_Lambert( material.diffuseContribution );
	#endif
	reflectedLight.directDiffuse += irradiance * diffuseBRDF * ( 1.0 - F );
}
void RE_IndirectDiffuse_Physical( const in vec3 irradiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight ) {
	vec3 singleScattering = vec3( 0.0 );
	vec3 multiScattering = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScattering, multiScattering );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScattering, multiScattering );
	#endif
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuseAlbedo = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness );
		vec3 diffuse = irradiance * RECIPROCAL_PI * diffuseAlbedo * ( 1.0 - singleScattering - multiScattering );
	#else
		vec3 diffuse = irradiance * BRDF_Lambert( material.diffuseContribution ) * ( 1.0 - singleScattering - multiScattering );
	#endif
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		sheenSpecularIndirect += irradiance * material.sheenColor * sheenAlbedo * RECIPROCAL_PI;
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		diffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectDiffuse += diffuse;
}
void RE_IndirectSpecular_Physical( const in vec3 radiance, const in vec3 irradiance, const in vec3 clearcoatRadiance, const in vec3 geometryPosition, const in vec3 geometryNormal, const in vec3 geometryViewDir, const in vec3 geometryClearcoatNormal, const in PhysicalMaterial material, inout ReflectedLight reflectedLight) {
	#ifdef USE_CLEARCOAT
		clearcoatSpecularIndirect += clearcoatRadiance * EnvironmentBRDF( geometryClearcoatNormal, geometryViewDir, material.clearcoatF0, material.clearcoatF90, material.clearcoatRoughness );
	#endif
	#ifdef USE_SHEEN
		sheenSpecularIndirect += irradiance * material.sheenColor * IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness ) * RECIPROCAL_PI;
 	#endif
	vec3 singleScatteringDielectric = vec3( 0.0 );
	vec3 multiScatteringDielectric = vec3( 0.0 );
	vec3 singleScatteringMetallic = vec3( 0.0 );
	vec3 multiScatteringMetallic = vec3( 0.0 );
	#ifdef USE_IRIDESCENCE
		computeMultiscatteringIridescence( material.dfg, material.specularColor, material.specularF90, material.iridescence, material.iridescenceF0Dielectric, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscatteringIridescence( material.dfg, material.diffuseColor, material.specularF90, material.iridescence, material.iridescenceF0Metallic, singleScatteringMetallic, multiScatteringMetallic );
	#else
		computeMultiscattering( material.dfg, material.specularColor, material.specularF90, singleScatteringDielectric, multiScatteringDielectric );
		computeMultiscattering( material.dfg, material.diffuseColor, material.specularF90, singleScatteringMetallic, multiScatteringMetallic );
	#endif
	vec3 singleScattering = mix( singleScatteringDielectric, singleScatteringMetallic, material.metalness );
	vec3 multiScattering = mix( multiScatteringDielectric, multiScatteringMetallic, material.metalness );
	vec3 totalScatteringDielectric = singleScatteringDielectric + multiScatteringDielectric;
	#ifdef USE_DIFFUSE_ROUGHNESS
		float dotNV = saturate( dot( geometryNormal, geometryViewDir ) );
		vec3 diffuse = EON_DirectionalAlbedo( material.diffuseColor, material.diffuseRoughness, dotNV ) * ( 1.0 - material.metalness ) * ( 1.0 - totalScatteringDielectric );
	#else
		vec3 diffuse = material.diffuseContribution * ( 1.0 - totalScatteringDielectric );
	#endif
	vec3 cosineWeightedIrradiance = irradiance * RECIPROCAL_PI;
	vec3 indirectSpecular = radiance * singleScattering;
	indirectSpecular += multiScattering * cosineWeightedIrradiance;
	vec3 indirectDiffuse = diffuse * cosineWeightedIrradiance;
	#ifdef USE_SHEEN
		float sheenAlbedo = IBLSheenBRDF( geometryNormal, geometryViewDir, material.sheenRoughness );
		float sheenEnergyComp = 1.0 - max3( material.sheenColor ) * sheenAlbedo;
		indirectSpecular *= sheenEnergyComp;
		indirectDiffuse *= sheenEnergyComp;
	#endif
	reflectedLight.indirectSpecular += indirectSpecular;
	reflectedLight.indirectDiffuse += indirectDiffuse;
}
#define RE_Direct				RE_Direct_Physical
#define RE_Direct_RectArea		RE_Direct_RectArea_Physical
#define RE_IndirectDiffuse		RE_IndirectDiffuse_Physical
#define RE_IndirectSpecular		RE_IndirectSpecular_Physical
float computeSpecularOcclusion( const in float dotNV, const in float ambientOcclusion, const in float roughness ) {
	return saturate( pow( dotNV + ambientOcclusion, exp2( - 16.0 * roughness - 1.0 ) ) - 1.0 + ambientOcclusion );
}`,Ab=`
vec3 geometryPosition = - vViewPosition;
vec3 geometryNormal = normal;
vec3 geometryViewDir = ( isOrthographic ) ? vec3( 0, 0, 1 ) : normalize( vViewPosition );
vec3 geometryClearcoatNormal = vec3( 0.0 );
#ifdef USE_CLEARCOAT
	geometryClearcoatNormal = clearcoatNormal;
#endif
#ifdef USE_IRIDESCENCE
	float dotNVi = saturate( dot( normal, geometryViewDir ) );
	if ( material.iridescenceThickness == 0.0 ) {
		material.iridescence = 0.0;
	} else {
		material.iridescence = saturate( material.iridescence );
	}
	if ( material.iridescence > 0.0 ) {
		vec3 iridescenceFresnelDielectric = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.specularColor );
		vec3 iridescenceFresnelMetallic = evalIridescence( 1.0, material.iridescenceIOR, dotNVi, material.iridescenceThickness, material.diffuseColor );
		material.iridescenceFresnel = mix( iridescenceFresnelDielectric, iridescenceFresnelMetallic, material.metalness );
		material.iridescenceF0Dielectric = Schlick_to_F0( iridescenceFresnelDielectric, 1.0, dotNVi );
		material.iridescenceF0Metallic = Schlick_to_F0( iridescenceFresnelMetallic, 1.0, dotNVi );
	}
#endif
#ifdef STANDARD
	float dotNVms = saturate( dot( geometryNormal, geometryViewDir ) );
	material.dfg = texture2D( dfgLUT, vec2( material.roughness, dotNVms ) ).rg;
	#if ( NUM_SUN_LIGHTS > 0 || NUM_DIR_LIGHTS > 0 || NUM_POINT_LIGHTS > 0 || NUM_SPOT_LIGHTS > 0 )
		float EssMs = material.dfg.x + material.dfg.y;
		material.multiScatteringCompensation = 1.0 + material.specularColorBlended * ( 1.0 / EssMs - 1.0 );
	#endif
#endif
IncidentLight directLight;
#if ( NUM_POINT_LIGHTS > 0 ) && defined( RE_Direct )
	PointLight pointLight;
	#if defined( USE_SHADOWMAP ) && NUM_POINT_LIGHT_SHADOWS > 0
	PointLightShadow pointLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHTS; i ++ ) {
		pointLight = pointLights[ i ];
		getPointLightInfo( pointLight, geometryPosition, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_POINT_LIGHT_SHADOWS ) && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
		pointLightShadow = pointLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getPointShadow( pointShadowMap[ i ], pointLightShadow.shadowMapSize, pointLightShadow.shadowIntensity, pointLightShadow.shadowBias, pointLightShadow.shadowRadius, vPointShadowCoord[ i ], pointLightShadow.shadowCameraNear, pointLightShadow.shadowCameraFar ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SPOT_LIGHTS > 0 ) && defined( RE_Direct )
	SpotLight spotLight;
	vec4 spotColor;
	vec3 spotLightCoord;
	bool inSpotLightMap;
	#if defined( USE_SHADOWMAP ) && NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHTS; i ++ ) {
		spotLight = spotLights[ i ];
		getSpotLightInfo( spotLight, geometryPosition, directLight );
		#if ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#define SPOT_LIGHT_MAP_INDEX UNROLLED_LOOP_INDEX
		#elif ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		#define SPOT_LIGHT_MAP_INDEX NUM_SPOT_LIGHT_MAPS
		#else
		#define SPOT_LIGHT_MAP_INDEX ( UNROLLED_LOOP_INDEX - NUM_SPOT_LIGHT_SHADOWS + NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS )
		#endif
		#if ( SPOT_LIGHT_MAP_INDEX < NUM_SPOT_LIGHT_MAPS )
			spotLightCoord = vSpotLightCoord[ i ].xyz / vSpotLightCoord[ i ].w;
			inSpotLightMap = all( lessThan( abs( spotLightCoord * 2. - 1. ), vec3( 1.0 ) ) );
			spotColor = texture2D( spotLightMap[ SPOT_LIGHT_MAP_INDEX ], spotLightCoord.xy );
			directLight.color = inSpotLightMap ? directLight.color * spotColor.rgb : directLight.color;
		#endif
		#undef SPOT_LIGHT_MAP_INDEX
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
		spotLightShadow = spotLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( spotShadowMap[ i ], spotLightShadow.shadowMapSize, spotLightShadow.shadowIntensity, spotLightShadow.shadowBias, spotLightShadow.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_SUN_LIGHTS > 0 ) && defined( RE_Direct )
	SunLight sunLight;
	#if defined( USE_SHADOWMAP ) && NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHTS; i ++ ) {
		sunLight = sunLights[ i ];
		getSunLightInfo( sunLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_SUN_LIGHT_SHADOWS )
		sunLightShadow = sunLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getSunShadow( sunShadowMap[ i ], sunLightShadow, UNROLLED_LOOP_INDEX ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_DIR_LIGHTS > 0 ) && defined( RE_Direct )
	DirectionalLight directionalLight;
	#if defined( USE_SHADOWMAP ) && NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLightShadow;
	#endif
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHTS; i ++ ) {
		directionalLight = directionalLights[ i ];
		getDirectionalLightInfo( directionalLight, directLight );
		#if defined( USE_SHADOWMAP ) && ( UNROLLED_LOOP_INDEX < NUM_DIR_LIGHT_SHADOWS )
		directionalLightShadow = directionalLightShadows[ i ];
		directLight.color *= ( directLight.visible && receiveShadow ) ? getShadow( directionalShadowMap[ i ], directionalLightShadow.shadowMapSize, directionalLightShadow.shadowIntensity, directionalLightShadow.shadowBias, directionalLightShadow.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
		#endif
		RE_Direct( directLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if ( NUM_RECT_AREA_LIGHTS > 0 ) && defined( RE_Direct_RectArea )
	RectAreaLight rectAreaLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_RECT_AREA_LIGHTS; i ++ ) {
		rectAreaLight = rectAreaLights[ i ];
		RE_Direct_RectArea( rectAreaLight, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
	}
	#pragma unroll_loop_end
#endif
#if defined( RE_IndirectDiffuse )
	vec3 iblIrradiance = vec3( 0.0 );
	vec3 irradiance = getAmbientLightIrradiance( ambientLightColor );
	#if defined( USE_LIGHT_PROBES )
		irradiance += getLightProbeIrradiance( lightProbe, geometryNormal );
	#endif
	#if ( NUM_HEMI_LIGHTS > 0 )
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_HEMI_LIGHTS; i ++ ) {
			irradiance += getHemisphereLightIrradiance( hemisphereLights[ i ], geometryNormal );
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_LIGHT_PROBE_GRIDS > 0
		vec3 probeWorldPos = ( ( vec4( geometryPosition, 1.0 ) - viewMatrix[ 3 ] ) * viewMatrix ).xyz;
		vec3 probeWorldNormal = transformNormalByInverseViewMatrix( geometryNormal, viewMatrix );
		int probeGrid = - 1;
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( isInsideLightProbeGrid( probeWorldPos, probeWorldNormal, probesMin[ i ], probesMax[ i ], probesResolution[ i ] ) ) probeGrid = UNROLLED_LOOP_INDEX;
		}
		#pragma unroll_loop_end
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_LIGHT_PROBE_GRIDS; i ++ ) {
			if ( probeGrid == UNROLLED_LOOP_INDEX ) irradiance += getLightProbeGridIrradiance( probesSH[ i ], probesMin[ i ], probesMax[ i ], probesResolution[ i ], probeWorldPos, probeWorldNormal );
		}
		#pragma unroll_loop_end
	#endif
#endif
#if defined( RE_IndirectSpecular )
	vec3 radiance = vec3( 0.0 );
	vec3 clearcoatRadiance = vec3( 0.0 );
#endif`,Eb=`#if defined( RE_IndirectDiffuse )
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		vec3 lightMapIrradiance = lightMapTexel.rgb * lightMapIntensity;
		irradiance += lightMapIrradiance;
	#endif
	#if defined( USE_ENVMAP ) && defined( ENVMAP_TYPE_PMREM )
		#if defined( STANDARD ) || defined( LAMBERT ) || defined( PHONG )
			iblIrradiance += getIBLIrradiance( geometryNormal );
		#endif
	#endif
#endif
#if defined( USE_ENVMAP ) && defined( RE_IndirectSpecular )
	#ifdef USE_ANISOTROPY
		vec3 iblRadiance = getIBLAnisotropyRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
	#else
		vec3 iblRadiance = getIBLRadiance( geometryViewDir, geometryNormal, material.roughness );
	#endif
	#ifdef USE_RETROREFLECTION
		#ifdef USE_ANISOTROPY
			vec3 retroIBLRadiance = getIBLAnisotropyRetroRadiance( geometryViewDir, geometryNormal, material.roughness, material.anisotropyB, material.anisotropy );
		#else
			vec3 retroIBLRadiance = getIBLRetroRadiance( geometryViewDir, geometryNormal, material.roughness );
		#endif
		iblRadiance = mix( iblRadiance, retroIBLRadiance, saturate( material.retroreflectivity ) );
	#endif
	radiance += iblRadiance;
	#ifdef USE_CLEARCOAT
		clearcoatRadiance += getIBLRadiance( geometryViewDir, geometryClearcoatNormal, material.clearcoatRoughness );
	#endif
#endif`,Cb=`#if defined( RE_IndirectDiffuse )
	#if defined( LAMBERT ) || defined( PHONG )
		irradiance += iblIrradiance;
	#endif
	RE_IndirectDiffuse( irradiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif
#if defined( RE_IndirectSpecular )
	RE_IndirectSpecular( radiance, iblIrradiance, clearcoatRadiance, geometryPosition, geometryNormal, geometryViewDir, geometryClearcoatNormal, material, reflectedLight );
#endif`,Rb=`#if NUM_LIGHT_PROBE_GRIDS > 0
uniform highp sampler3D probesSH[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMin[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesMax[ NUM_LIGHT_PROBE_GRIDS ];
uniform vec3 probesResolution[ NUM_LIGHT_PROBE_GRIDS ];
bool isInsideLightProbeGrid( vec3 worldPos, vec3 worldNormal, vec3 probesMin, vec3 probesMax, vec3 probesResolution ) {
	vec3 spacing = ( probesMax - probesMin ) / probesResolution;
	vec3 samplePos = worldPos + worldNormal * spacing * 0.5;
	vec3 margin = spacing * 0.01;
	return all( greaterThanEqual( samplePos, probesMin - margin ) ) && all( lessThanEqual( samplePos, probesMax + margin ) );
}
vec3 getLightProbeGridIrradiance( highp sampler3D probesSH, vec3 probesMin, vec3 probesMax, vec3 probesResolution, vec3 worldPos, vec3 worldNormal ) {
	vec3 res = probesResolution;
	vec3 gridRange = probesMax - probesMin;
	vec3 probeSpacing = gridRange / res;
	vec3 samplePos = worldPos + worldNormal * probeSpacing * 0.5;
	vec3 uvw = clamp( ( samplePos - probesMin ) / gridRange, 0.5 / res, 1.0 - 0.5 / res );
	float nz          = res.z;
	float paddedSlices = nz + 2.0;
	float atlasDepth  = 7.0 * paddedSlices;
	float uvZBase     = uvw.z * nz + 1.0;
	vec4 s0 = texture( probesSH, vec3( uvw.xy, ( uvZBase                       ) / atlasDepth ) );
	vec4 s1 = texture( probesSH, vec3( uvw.xy, ( uvZBase +       paddedSlices   ) / atlasDepth ) );
	vec4 s2 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 2.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s3 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 3.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s4 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 4.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s5 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 5.0 * paddedSlices   ) / atlasDepth ) );
	vec4 s6 = texture( probesSH, vec3( uvw.xy, ( uvZBase + 6.0 * paddedSlices   ) / atlasDepth ) );
	vec3 c0 = s0.xyz;
	vec3 c1 = vec3( s0.w, s1.xy );
	vec3 c2 = vec3( s1.zw, s2.x );
	vec3 c3 = s2.yzw;
	vec3 c4 = s3.xyz;
	vec3 c5 = vec3( s3.w, s4.xy );
	vec3 c6 = vec3( s4.zw, s5.x );
	vec3 c7 = s5.yzw;
	vec3 c8 = s6.xyz;
	float x = worldNormal.x, y = worldNormal.y, z = worldNormal.z;
	vec3 result = c0 * 0.886227;
	result += c1 * 2.0 * 0.511664 * y;
	result += c2 * 2.0 * 0.511664 * z;
	result += c3 * 2.0 * 0.511664 * x;
	result += c4 * 2.0 * 0.429043 * x * y;
	result += c5 * 2.0 * 0.429043 * y * z;
	result += c6 * ( 0.743125 * z * z - 0.247708 );
	result += c7 * 2.0 * 0.429043 * x * z;
	result += c8 * 0.429043 * ( x * x - y * y );
	return max( result, vec3( 0.0 ) );
}
#endif`,Ib=`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	gl_FragDepth = vIsPerspective == 0.0 ? gl_FragCoord.z : log2( vFragDepth ) * logDepthBufFC * 0.5;
#endif`,Pb=`#if defined( USE_LOGARITHMIC_DEPTH_BUFFER )
	uniform float logDepthBufFC;
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,Lb=`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	varying float vFragDepth;
	varying float vIsPerspective;
#endif`,Nb=`#ifdef USE_LOGARITHMIC_DEPTH_BUFFER
	vFragDepth = 1.0 + gl_Position.w;
	vIsPerspective = float( isPerspectiveMatrix( projectionMatrix ) );
#endif`,Db=`#ifdef USE_MAP
	vec4 sampledDiffuseColor = texture2D( map, vMapUv );
	#ifdef DECODE_VIDEO_TEXTURE
		sampledDiffuseColor = sRGBTransferEOTF( sampledDiffuseColor );
	#endif
	diffuseColor *= sampledDiffuseColor;
#endif`,Ob=`#ifdef USE_MAP
	uniform sampler2D map;
#endif`,Ub=`#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
	#if defined( USE_POINTS_UV )
		vec2 uv = vUv;
	#else
		vec2 uv = ( uvTransform * vec3( gl_PointCoord.x, 1.0 - gl_PointCoord.y, 1 ) ).xy;
	#endif
#endif
#ifdef USE_MAP
	diffuseColor *= texture2D( map, uv );
#endif
#ifdef USE_ALPHAMAP
	diffuseColor.a *= texture2D( alphaMap, uv ).g;
#endif`,Fb=`#if defined( USE_POINTS_UV )
	varying vec2 vUv;
#else
	#if defined( USE_MAP ) || defined( USE_ALPHAMAP )
		uniform mat3 uvTransform;
	#endif
#endif
#ifdef USE_MAP
	uniform sampler2D map;
#endif
#ifdef USE_ALPHAMAP
	uniform sampler2D alphaMap;
#endif`,kb=`float metalnessFactor = metalness;
#ifdef USE_METALNESSMAP
	vec4 texelMetalness = texture2D( metalnessMap, vMetalnessMapUv );
	metalnessFactor *= texelMetalness.b;
#endif`,Bb=`#ifdef USE_METALNESSMAP
	uniform sampler2D metalnessMap;
#endif`,zb=`#ifdef USE_INSTANCING_MORPH
	float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	float morphTargetBaseInfluence = texelFetch( morphTexture, ivec2( 0, gl_InstanceID ), 0 ).r;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		morphTargetInfluences[i] =  texelFetch( morphTexture, ivec2( i + 1, gl_InstanceID ), 0 ).r;
	}
#endif`,Gb=`#if defined( USE_MORPHCOLORS )
	#if defined( USE_COLOR_ALPHA )
		vColor *= morphTargetBaseInfluence;
	#elif defined( USE_COLOR )
		vColor.rgb *= morphTargetBaseInfluence;
	#endif
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		#if defined( USE_COLOR_ALPHA )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor += getMorph( gl_VertexID, i, 2 ) * morphTargetInfluences[ i ];
		#elif defined( USE_COLOR )
			if ( morphTargetInfluences[ i ] != 0.0 ) vColor.rgb += getMorph( gl_VertexID, i, 2 ).rgb * morphTargetInfluences[ i ];
		#endif
	}
#endif`,Vb=`#ifdef USE_MORPHNORMALS
	objectNormal *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) objectNormal += getMorph( gl_VertexID, i, 1 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,Hb=`#ifdef USE_MORPHTARGETS
	#ifndef USE_INSTANCING_MORPH
		uniform float morphTargetBaseInfluence;
		uniform float morphTargetInfluences[ MORPHTARGETS_COUNT ];
	#endif
	uniform sampler2DArray morphTargetsTexture;
	uniform ivec2 morphTargetsTextureSize;
	vec4 getMorph( const in int vertexIndex, const in int morphTargetIndex, const in int offset ) {
		int texelIndex = vertexIndex * MORPHTARGETS_TEXTURE_STRIDE + offset;
		int y = texelIndex / morphTargetsTextureSize.x;
		int x = texelIndex - y * morphTargetsTextureSize.x;
		ivec3 morphUV = ivec3( x, y, morphTargetIndex );
		return texelFetch( morphTargetsTexture, morphUV, 0 );
	}
#endif`,Wb=`#ifdef USE_MORPHTARGETS
	transformed *= morphTargetBaseInfluence;
	for ( int i = 0; i < MORPHTARGETS_COUNT; i ++ ) {
		if ( morphTargetInfluences[ i ] != 0.0 ) transformed += getMorph( gl_VertexID, i, 0 ).xyz * morphTargetInfluences[ i ];
	}
#endif`,Xb=`float faceDirection = gl_FrontFacing ? 1.0 : - 1.0;
#ifdef FLAT_SHADED
	vec3 fdx = dFdx( vViewPosition );
	vec3 fdy = dFdy( vViewPosition );
	vec3 normal = normalize( cross( fdx, fdy ) );
#else
	vec3 normal = normalize( vNormal );
	#ifdef DOUBLE_SIDED
		normal *= faceDirection;
	#endif
#endif
#if defined( USE_NORMALMAP_TANGENTSPACE ) || defined( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY )
	#ifdef USE_TANGENT
		mat3 tbn = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn = getTangentFrame( - vViewPosition, normal,
		#if defined( USE_NORMALMAP )
			vNormalMapUv
		#elif defined( USE_CLEARCOAT_NORMALMAP )
			vClearcoatNormalMapUv
		#else
			vUv
		#endif
		);
	#endif
	#ifdef DOUBLE_SIDED
		tbn[0] *= faceDirection;
		tbn[1] *= faceDirection;
	#endif
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	#ifdef USE_TANGENT
		mat3 tbn2 = mat3( normalize( vTangent ), normalize( vBitangent ), normal );
	#else
		mat3 tbn2 = getTangentFrame( - vViewPosition, normal, vClearcoatNormalMapUv );
	#endif
	#ifdef DOUBLE_SIDED
		tbn2[0] *= faceDirection;
		tbn2[1] *= faceDirection;
	#endif
#endif
vec3 nonPerturbedNormal = normal;`,$b=`#ifdef USE_NORMALMAP_OBJECTSPACE
	normal = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#ifdef FLIP_SIDED
		normal = - normal;
	#endif
	#ifdef DOUBLE_SIDED
		normal = normal * faceDirection;
	#endif
	normal = normalize( normalMatrix * normal );
#elif defined( USE_NORMALMAP_TANGENTSPACE )
	vec3 mapN = texture2D( normalMap, vNormalMapUv ).xyz * 2.0 - 1.0;
	#if defined( USE_PACKED_NORMALMAP )
		mapN = vec3( mapN.xy, sqrt( saturate( 1.0 - dot( mapN.xy, mapN.xy ) ) ) );
	#endif
	mapN.xy *= normalScale;
	normal = normalize( tbn * mapN );
#elif defined( USE_BUMPMAP )
	normal = perturbNormalArb( - vViewPosition, normal, dHdxy_fwd(), faceDirection );
#endif`,qb=`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,Yb=`#ifndef FLAT_SHADED
	varying vec3 vNormal;
	#ifdef USE_TANGENT
		varying vec3 vTangent;
		varying vec3 vBitangent;
	#endif
#endif`,Jb=`#ifndef FLAT_SHADED
	vNormal = normalize( transformedNormal );
	#ifdef USE_TANGENT
		vTangent = normalize( transformedTangent );
		vBitangent = normalize( cross( vNormal, vTangent ) * tangent.w );
		#ifdef FLIP_SIDED
			vBitangent = - vBitangent;
		#endif
	#endif
#endif`,Zb=`#ifdef USE_NORMALMAP
	uniform sampler2D normalMap;
	uniform vec2 normalScale;
#endif
#ifdef USE_NORMALMAP_OBJECTSPACE
	uniform mat3 normalMatrix;
#endif
#if ! defined ( USE_TANGENT ) && ( defined ( USE_NORMALMAP_TANGENTSPACE ) || defined ( USE_CLEARCOAT_NORMALMAP ) || defined( USE_ANISOTROPY ) )
	mat3 getTangentFrame( vec3 eye_pos, vec3 surf_norm, vec2 uv ) {
		vec3 q0 = dFdx( eye_pos.xyz );
		vec3 q1 = dFdy( eye_pos.xyz );
		vec2 st0 = dFdx( uv.st );
		vec2 st1 = dFdy( uv.st );
		vec3 N = surf_norm;
		vec3 q1perp = cross( q1, N );
		vec3 q0perp = cross( N, q0 );
		vec3 T = q1perp * st0.x + q0perp * st1.x;
		vec3 B = q1perp * st0.y + q0perp * st1.y;
		float det = max( dot( T, T ), dot( B, B ) );
		float scale = ( det == 0.0 ) ? 0.0 : inversesqrt( det );
		return mat3( T * scale, B * scale, N );
	}
#endif`,Kb=`#ifdef USE_CLEARCOAT
	vec3 clearcoatNormal = nonPerturbedNormal;
#endif`,jb=`#ifdef USE_CLEARCOAT_NORMALMAP
	vec3 clearcoatMapN = texture2D( clearcoatNormalMap, vClearcoatNormalMapUv ).xyz * 2.0 - 1.0;
	clearcoatMapN.xy *= clearcoatNormalScale;
	clearcoatNormal = normalize( tbn2 * clearcoatMapN );
#endif`,Qb=`#ifdef USE_CLEARCOATMAP
	uniform sampler2D clearcoatMap;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform sampler2D clearcoatNormalMap;
	uniform vec2 clearcoatNormalScale;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform sampler2D clearcoatRoughnessMap;
#endif`,tw=`#ifdef USE_IRIDESCENCEMAP
	uniform sampler2D iridescenceMap;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform sampler2D iridescenceThicknessMap;
#endif`,ew=`#ifdef OPAQUE
diffuseColor.a = 1.0;
#endif
#ifdef USE_TRANSMISSION
diffuseColor.a *= material.transmissionAlpha;
#endif
gl_FragColor = vec4( outgoingLight, diffuseColor.a );`,nw=`vec3 packNormalToRGB( const in vec3 normal ) {
	return normalize( normal ) * 0.5 + 0.5;
}
vec3 unpackRGBToNormal( const in vec3 rgb ) {
	return 2.0 * rgb.xyz - 1.0;
}
const float PackUpscale = 256. / 255.;const float UnpackDownscale = 255. / 256.;const float ShiftRight8 = 1. / 256.;
const float Inv255 = 1. / 255.;
const vec4 PackFactors = vec4( 1.0, 256.0, 256.0 * 256.0, 256.0 * 256.0 * 256.0 );
const vec2 UnpackFactors2 = vec2( UnpackDownscale, 1.0 / PackFactors.g );
const vec3 UnpackFactors3 = vec3( UnpackDownscale / PackFactors.rg, 1.0 / PackFactors.b );
const vec4 UnpackFactors4 = vec4( UnpackDownscale / PackFactors.rgb, 1.0 / PackFactors.a );
vec4 packDepthToRGBA( const in float v ) {
	if( v <= 0.0 )
		return vec4( 0., 0., 0., 0. );
	if( v >= 1.0 )
		return vec4( 1., 1., 1., 1. );
	float vuf;
	float af = modf( v * PackFactors.a, vuf );
	float bf = modf( vuf * ShiftRight8, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec4( vuf * Inv255, gf * PackUpscale, bf * PackUpscale, af );
}
vec3 packDepthToRGB( const in float v ) {
	if( v <= 0.0 )
		return vec3( 0., 0., 0. );
	if( v >= 1.0 )
		return vec3( 1., 1., 1. );
	float vuf;
	float bf = modf( v * PackFactors.b, vuf );
	float gf = modf( vuf * ShiftRight8, vuf );
	return vec3( vuf * Inv255, gf * PackUpscale, bf );
}
vec2 packDepthToRG( const in float v ) {
	if( v <= 0.0 )
		return vec2( 0., 0. );
	if( v >= 1.0 )
		return vec2( 1., 1. );
	float vuf;
	float gf = modf( v * 256., vuf );
	return vec2( vuf * Inv255, gf );
}
float unpackRGBAToDepth( const in vec4 v ) {
	return dot( v, UnpackFactors4 );
}
float unpackRGBToDepth( const in vec3 v ) {
	return dot( v, UnpackFactors3 );
}
float unpackRGToDepth( const in vec2 v ) {
	return v.r * UnpackFactors2.r + v.g * UnpackFactors2.g;
}
vec4 pack2HalfToRGBA( const in vec2 v ) {
	vec4 r = vec4( v.x, fract( v.x * 255.0 ), v.y, fract( v.y * 255.0 ) );
	return vec4( r.x - r.y / 255.0, r.y, r.z - r.w / 255.0, r.w );
}
vec2 unpackRGBATo2Half( const in vec4 v ) {
	return vec2( v.x + ( v.y / 255.0 ), v.z + ( v.w / 255.0 ) );
}
float viewZToOrthographicDepth( const in float viewZ, const in float near, const in float far ) {
	return ( viewZ + near ) / ( near - far );
}
float orthographicDepthToViewZ( const in float depth, const in float near, const in float far ) {
	#ifdef USE_REVERSED_DEPTH_BUFFER
	
		return depth * ( far - near ) - far;
	#else
		return depth * ( near - far ) - near;
	#endif
}
float viewZToPerspectiveDepth( const in float viewZ, const in float near, const in float far ) {
	return ( ( near + viewZ ) * far ) / ( ( far - near ) * viewZ );
}
float perspectiveDepthToViewZ( const in float depth, const in float near, const in float far ) {
	
	#ifdef USE_REVERSED_DEPTH_BUFFER
		return ( near * far ) / ( ( near - far ) * depth - near );
	#else
		return ( near * far ) / ( ( far - near ) * depth - far );
	#endif
}`,iw=`#ifdef PREMULTIPLIED_ALPHA
	gl_FragColor.rgb *= gl_FragColor.a;
#endif`,sw=`vec4 mvPosition = vec4( transformed, 1.0 );
#ifdef USE_BATCHING
	mvPosition = batchingMatrix * mvPosition;
#endif
#ifdef USE_INSTANCING
	mvPosition = instanceMatrix * mvPosition;
#endif
mvPosition = modelViewMatrix * mvPosition;
gl_Position = projectionMatrix * mvPosition;`,rw=`#ifdef DITHERING
	gl_FragColor.rgb = dithering( gl_FragColor.rgb );
#endif`,ow=`#ifdef DITHERING
	vec3 dithering( vec3 color ) {
		float grid_position = rand( gl_FragCoord.xy );
		vec3 dither_shift_RGB = vec3( 0.25 / 255.0, -0.25 / 255.0, 0.25 / 255.0 );
		dither_shift_RGB = mix( 2.0 * dither_shift_RGB, -2.0 * dither_shift_RGB, grid_position );
		return color + dither_shift_RGB;
	}
#endif`,aw=`float roughnessFactor = roughness;
#ifdef USE_ROUGHNESSMAP
	vec4 texelRoughness = texture2D( roughnessMap, vRoughnessMapUv );
	roughnessFactor *= texelRoughness.g;
#endif`,lw=`#ifdef USE_ROUGHNESSMAP
	uniform sampler2D roughnessMap;
#endif`,cw=`#if NUM_SPOT_LIGHT_COORDS > 0
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#if NUM_SPOT_LIGHT_MAPS > 0
	uniform sampler2D spotLightMap[ NUM_SPOT_LIGHT_MAPS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		#define SUN_LIGHT_CASCADES 2
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#else
			uniform sampler2D sunShadowMap[ NUM_SUN_LIGHT_SHADOWS ];
		#endif
		uniform mat4 sunShadowMatrix[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		uniform vec4 sunShadowCascade[ NUM_SUN_LIGHT_SHADOWS * SUN_LIGHT_CASCADES ];
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
		struct SunLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SunLightShadow sunLightShadows[ NUM_SUN_LIGHT_SHADOWS ];
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#else
			uniform sampler2D directionalShadowMap[ NUM_DIR_LIGHT_SHADOWS ];
		#endif
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform sampler2DShadow spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#else
			uniform sampler2D spotShadowMap[ NUM_SPOT_LIGHT_SHADOWS ];
		#endif
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#if defined( SHADOWMAP_TYPE_PCF )
			uniform samplerCubeShadow pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#elif defined( SHADOWMAP_TYPE_BASIC )
			uniform samplerCube pointShadowMap[ NUM_POINT_LIGHT_SHADOWS ];
		#endif
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float interleavedGradientNoise( vec2 position ) {
			return fract( 52.9829189 * fract( dot( position, vec2( 0.06711056, 0.00583715 ) ) ) );
		}
		vec2 vogelDiskSample( int sampleIndex, int samplesCount, float phi ) {
			const float goldenAngle = 2.399963229728653;
			float r = sqrt( ( float( sampleIndex ) + 0.5 ) / float( samplesCount ) );
			float theta = float( sampleIndex ) * goldenAngle + phi;
			return vec2( cos( theta ), sin( theta ) ) * r;
		}
	#endif
	#if defined( SHADOWMAP_TYPE_PCF )
		float getShadow( sampler2DShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 texelSize = vec2( 1.0 ) / shadowMapSize;
				vec2 radius = shadowRadius * texelSize;
				float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
				shadow = (
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 0, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 1, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 2, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 3, 5, phi ) * radius, shadowCoord.z ) ) +
					texture( shadowMap, vec3( shadowCoord.xy + vogelDiskSample( 4, 5, phi ) * radius, shadowCoord.z ) )
				) * 0.2;
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#elif defined( SHADOWMAP_TYPE_VSM )
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				vec2 distribution = texture2D( shadowMap, shadowCoord.xy ).rg;
				float mean = distribution.x;
				float variance = distribution.y * distribution.y;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					float hard_shadow = step( mean, shadowCoord.z );
				#else
					float hard_shadow = step( shadowCoord.z, mean );
				#endif
				
				if ( hard_shadow == 1.0 ) {
					shadow = 1.0;
				} else {
					variance = max( variance, 0.0000001 );
					float d = shadowCoord.z - mean;
					float p_max = variance / ( variance + d * d );
					p_max = clamp( ( p_max - 0.3 ) / 0.65, 0.0, 1.0 );
					shadow = max( hard_shadow, p_max );
				}
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#else
		float getShadow( sampler2D shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord ) {
			float shadow = 1.0;
			shadowCoord.xyz /= shadowCoord.w;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				shadowCoord.z -= shadowBias;
			#else
				shadowCoord.z += shadowBias;
			#endif
			bool inFrustum = shadowCoord.x >= 0.0 && shadowCoord.x <= 1.0 && shadowCoord.y >= 0.0 && shadowCoord.y <= 1.0;
			bool frustumTest = inFrustum && shadowCoord.z <= 1.0;
			if ( frustumTest ) {
				float depth = texture2D( shadowMap, shadowCoord.xy ).r;
				#ifdef USE_REVERSED_DEPTH_BUFFER
					shadow = step( depth, shadowCoord.z );
				#else
					shadow = step( shadowCoord.z, depth );
				#endif
			}
			return mix( 1.0, shadow, shadowIntensity );
		}
	#endif
	#if NUM_SUN_LIGHT_SHADOWS > 0
		float getSunShadow(
			#if defined( SHADOWMAP_TYPE_PCF )
				sampler2DShadow shadowMap,
			#else
				sampler2D shadowMap,
			#endif
			SunLightShadow sunLightShadow,
			int shadowIndex
		) {
			vec4 shadowWorldPosition = vec4( vSunShadowWorldPosition.xyz + vSunShadowWorldNormal * sunLightShadow.shadowNormalBias, 1.0 );
			float viewDepth = vSunShadowWorldPosition.w;
			int cascadeOffset = shadowIndex * SUN_LIGHT_CASCADES;
			float shadow = 1.0;
			for ( int i = SUN_LIGHT_CASCADES - 1; i >= 0; i -- ) {
				vec4 cascade = sunShadowCascade[ cascadeOffset + i ];
				if ( viewDepth >= cascade.x && viewDepth < cascade.y ) {
					float cascadeShadow = getShadow(
						shadowMap,
						sunLightShadow.shadowMapSize,
						sunLightShadow.shadowIntensity,
						sunLightShadow.shadowBias,
						sunLightShadow.shadowRadius,
						sunShadowMatrix[ cascadeOffset + i ] * shadowWorldPosition
					);
					shadow = mix( cascadeShadow, shadow, smoothstep( cascade.z, cascade.y, viewDepth ) );
				}
			}
			return shadow;
		}
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
	#if defined( SHADOWMAP_TYPE_PCF )
	float getPointShadow( samplerCubeShadow shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 bd3D = normalize( lightToPosition );
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float lightDistance = length( lightToPosition );
			float depthRange = shadowCameraFar - shadowCameraNear;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				float depthA = - shadowCameraNear / depthRange - shadowBias;
				float depthB = shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#else
				float depthA = shadowCameraFar / depthRange + shadowBias;
				float depthB = - shadowCameraNear * shadowCameraFar / ( depthRange * lightDistance );
			#endif
			float texelSize = shadowRadius / shadowMapSize.x;
			vec3 absDir = abs( bd3D );
			vec3 tangent = absDir.x > absDir.z ? vec3( 0.0, 1.0, 0.0 ) : vec3( 1.0, 0.0, 0.0 );
			tangent = normalize( cross( bd3D, tangent ) );
			vec3 bitangent = cross( bd3D, tangent );
			float phi = interleavedGradientNoise( gl_FragCoord.xy ) * PI2;
			shadow = 0.0;
			for ( int i = 0; i < 5; i ++ ) {
				vec2 offset = vogelDiskSample( i, 5, phi );
				vec3 direction = bd3D + ( tangent * offset.x + bitangent * offset.y ) * texelSize;
				vec3 absDirection = abs( direction );
				float dp = depthA + depthB / max( max( absDirection.x, absDirection.y ), absDirection.z );
				shadow += texture( shadowMap, vec4( direction, dp ) );
			}
			shadow *= 0.2;
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#elif defined( SHADOWMAP_TYPE_BASIC )
	float getPointShadow( samplerCube shadowMap, vec2 shadowMapSize, float shadowIntensity, float shadowBias, float shadowRadius, vec4 shadowCoord, float shadowCameraNear, float shadowCameraFar ) {
		float shadow = 1.0;
		vec3 lightToPosition = shadowCoord.xyz;
		vec3 absVec = abs( lightToPosition );
		float viewSpaceZ = max( max( absVec.x, absVec.y ), absVec.z );
		if ( viewSpaceZ - shadowCameraFar <= 0.0 && viewSpaceZ - shadowCameraNear >= 0.0 ) {
			float dp = ( shadowCameraFar * ( viewSpaceZ - shadowCameraNear ) ) / ( viewSpaceZ * ( shadowCameraFar - shadowCameraNear ) );
			dp += shadowBias;
			vec3 bd3D = normalize( lightToPosition );
			float depth = textureCube( shadowMap, bd3D ).r;
			#ifdef USE_REVERSED_DEPTH_BUFFER
				depth = 1.0 - depth;
			#endif
			shadow = step( dp, depth );
		}
		return mix( 1.0, shadow, shadowIntensity );
	}
	#endif
	#endif
#endif`,hw=`#if NUM_SPOT_LIGHT_COORDS > 0
	uniform mat4 spotLightMatrix[ NUM_SPOT_LIGHT_COORDS ];
	varying vec4 vSpotLightCoord[ NUM_SPOT_LIGHT_COORDS ];
#endif
#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
		varying vec4 vSunShadowWorldPosition;
		varying vec3 vSunShadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		uniform mat4 directionalShadowMatrix[ NUM_DIR_LIGHT_SHADOWS ];
		varying vec4 vDirectionalShadowCoord[ NUM_DIR_LIGHT_SHADOWS ];
		struct DirectionalLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform DirectionalLightShadow directionalLightShadows[ NUM_DIR_LIGHT_SHADOWS ];
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
		struct SpotLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
		};
		uniform SpotLightShadow spotLightShadows[ NUM_SPOT_LIGHT_SHADOWS ];
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		uniform mat4 pointShadowMatrix[ NUM_POINT_LIGHT_SHADOWS ];
		varying vec4 vPointShadowCoord[ NUM_POINT_LIGHT_SHADOWS ];
		struct PointLightShadow {
			float shadowIntensity;
			float shadowBias;
			float shadowNormalBias;
			float shadowRadius;
			vec2 shadowMapSize;
			float shadowCameraNear;
			float shadowCameraFar;
		};
		uniform PointLightShadow pointLightShadows[ NUM_POINT_LIGHT_SHADOWS ];
	#endif
#endif`,uw=`#if ( defined( USE_SHADOWMAP ) && ( NUM_DIR_LIGHT_SHADOWS > 0 || NUM_SUN_LIGHT_SHADOWS > 0 || NUM_POINT_LIGHT_SHADOWS > 0 ) ) || ( NUM_SPOT_LIGHT_COORDS > 0 )
	#ifdef HAS_NORMAL
		vec3 shadowWorldNormal = transformNormalByInverseViewMatrix( transformedNormal, viewMatrix );
	#else
		vec3 shadowWorldNormal = vec3( 0.0 );
	#endif
	vec4 shadowWorldPosition;
#endif
#if defined( USE_SHADOWMAP )
	#if NUM_SUN_LIGHT_SHADOWS > 0
		vSunShadowWorldPosition = vec4( worldPosition.xyz, - mvPosition.z );
		vSunShadowWorldNormal = shadowWorldNormal;
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * directionalLightShadows[ i ].shadowNormalBias, 0 );
			vDirectionalShadowCoord[ i ] = directionalShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0
		#pragma unroll_loop_start
		for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
			shadowWorldPosition = worldPosition + vec4( shadowWorldNormal * pointLightShadows[ i ].shadowNormalBias, 0 );
			vPointShadowCoord[ i ] = pointShadowMatrix[ i ] * shadowWorldPosition;
		}
		#pragma unroll_loop_end
	#endif
#endif
#if NUM_SPOT_LIGHT_COORDS > 0
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_COORDS; i ++ ) {
		shadowWorldPosition = worldPosition;
		#if ( defined( USE_SHADOWMAP ) && UNROLLED_LOOP_INDEX < NUM_SPOT_LIGHT_SHADOWS )
			shadowWorldPosition.xyz += shadowWorldNormal * spotLightShadows[ i ].shadowNormalBias;
		#endif
		vSpotLightCoord[ i ] = spotLightMatrix[ i ] * shadowWorldPosition;
	}
	#pragma unroll_loop_end
#endif`,dw=`float getShadowMask() {
	float shadow = 1.0;
	#ifdef USE_SHADOWMAP
	#if NUM_SUN_LIGHT_SHADOWS > 0
	SunLightShadow sunLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SUN_LIGHT_SHADOWS; i ++ ) {
		sunLight = sunLightShadows[ i ];
		shadow *= receiveShadow ? getSunShadow( sunShadowMap[ i ], sunLight, UNROLLED_LOOP_INDEX ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_DIR_LIGHT_SHADOWS > 0
	DirectionalLightShadow directionalLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_DIR_LIGHT_SHADOWS; i ++ ) {
		directionalLight = directionalLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( directionalShadowMap[ i ], directionalLight.shadowMapSize, directionalLight.shadowIntensity, directionalLight.shadowBias, directionalLight.shadowRadius, vDirectionalShadowCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_SPOT_LIGHT_SHADOWS > 0
	SpotLightShadow spotLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_SPOT_LIGHT_SHADOWS; i ++ ) {
		spotLight = spotLightShadows[ i ];
		shadow *= receiveShadow ? getShadow( spotShadowMap[ i ], spotLight.shadowMapSize, spotLight.shadowIntensity, spotLight.shadowBias, spotLight.shadowRadius, vSpotLightCoord[ i ] ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#if NUM_POINT_LIGHT_SHADOWS > 0 && ( defined( SHADOWMAP_TYPE_PCF ) || defined( SHADOWMAP_TYPE_BASIC ) )
	PointLightShadow pointLight;
	#pragma unroll_loop_start
	for ( int i = 0; i < NUM_POINT_LIGHT_SHADOWS; i ++ ) {
		pointLight = pointLightShadows[ i ];
		shadow *= receiveShadow ? getPointShadow( pointShadowMap[ i ], pointLight.shadowMapSize, pointLight.shadowIntensity, pointLight.shadowBias, pointLight.shadowRadius, vPointShadowCoord[ i ], pointLight.shadowCameraNear, pointLight.shadowCameraFar ) : 1.0;
	}
	#pragma unroll_loop_end
	#endif
	#endif
	return shadow;
}`,fw=`#ifdef USE_SKINNING
	mat4 boneMatX = getBoneMatrix( skinIndex.x );
	mat4 boneMatY = getBoneMatrix( skinIndex.y );
	mat4 boneMatZ = getBoneMatrix( skinIndex.z );
	mat4 boneMatW = getBoneMatrix( skinIndex.w );
#endif`,pw=`#ifdef USE_SKINNING
	uniform mat4 bindMatrix;
	uniform mat4 bindMatrixInverse;
	uniform highp sampler2D boneTexture;
	mat4 getBoneMatrix( const in float i ) {
		int size = textureSize( boneTexture, 0 ).x;
		int j = int( i ) * 4;
		int x = j % size;
		int y = j / size;
		vec4 v1 = texelFetch( boneTexture, ivec2( x, y ), 0 );
		vec4 v2 = texelFetch( boneTexture, ivec2( x + 1, y ), 0 );
		vec4 v3 = texelFetch( boneTexture, ivec2( x + 2, y ), 0 );
		vec4 v4 = texelFetch( boneTexture, ivec2( x + 3, y ), 0 );
		return mat4( v1, v2, v3, v4 );
	}
#endif`,mw=`#ifdef USE_SKINNING
	vec4 skinVertex = bindMatrix * vec4( transformed, 1.0 );
	vec4 skinned = vec4( 0.0 );
	skinned += boneMatX * skinVertex * skinWeight.x;
	skinned += boneMatY * skinVertex * skinWeight.y;
	skinned += boneMatZ * skinVertex * skinWeight.z;
	skinned += boneMatW * skinVertex * skinWeight.w;
	transformed = ( bindMatrixInverse * skinned ).xyz;
#endif`,gw=`#ifdef USE_SKINNING
	mat4 skinMatrix = mat4( 0.0 );
	skinMatrix += skinWeight.x * boneMatX;
	skinMatrix += skinWeight.y * boneMatY;
	skinMatrix += skinWeight.z * boneMatZ;
	skinMatrix += skinWeight.w * boneMatW;
	skinMatrix = bindMatrixInverse * skinMatrix * bindMatrix;
	objectNormal = vec4( skinMatrix * vec4( objectNormal, 0.0 ) ).xyz;
	#ifdef USE_TANGENT
		objectTangent = vec4( skinMatrix * vec4( objectTangent, 0.0 ) ).xyz;
	#endif
#endif`,_w=`float specularStrength;
#ifdef USE_SPECULARMAP
	vec4 texelSpecular = texture2D( specularMap, vSpecularMapUv );
	specularStrength = texelSpecular.r;
#else
	specularStrength = 1.0;
#endif`,xw=`#ifdef USE_SPECULARMAP
	uniform sampler2D specularMap;
#endif`,yw=`#if defined( TONE_MAPPING )
	gl_FragColor.rgb = toneMapping( gl_FragColor.rgb );
#endif`,vw=`#ifndef saturate
#define saturate( a ) clamp( a, 0.0, 1.0 )
#endif
uniform float toneMappingExposure;
vec3 LinearToneMapping( vec3 color ) {
	return saturate( toneMappingExposure * color );
}
vec3 ReinhardToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	return saturate( color / ( vec3( 1.0 ) + color ) );
}
vec3 CineonToneMapping( vec3 color ) {
	color *= toneMappingExposure;
	color = max( vec3( 0.0 ), color - 0.004 );
	return pow( ( color * ( 6.2 * color + 0.5 ) ) / ( color * ( 6.2 * color + 1.7 ) + 0.06 ), vec3( 2.2 ) );
}
vec3 RRTAndODTFit( vec3 v ) {
	vec3 a = v * ( v + 0.0245786 ) - 0.000090537;
	vec3 b = v * ( 0.983729 * v + 0.4329510 ) + 0.238081;
	return a / b;
}
vec3 ACESFilmicToneMapping( vec3 color ) {
	const mat3 ACESInputMat = mat3(
		vec3( 0.59719, 0.07600, 0.02840 ),		vec3( 0.35458, 0.90834, 0.13383 ),
		vec3( 0.04823, 0.01566, 0.83777 )
	);
	const mat3 ACESOutputMat = mat3(
		vec3(  1.60475, -0.10208, -0.00327 ),		vec3( -0.53108,  1.10813, -0.07276 ),
		vec3( -0.07367, -0.00605,  1.07602 )
	);
	color *= toneMappingExposure / 0.6;
	color = ACESInputMat * color;
	color = RRTAndODTFit( color );
	color = ACESOutputMat * color;
	return saturate( color );
}
const mat3 LINEAR_REC2020_TO_LINEAR_SRGB = mat3(
	vec3( 1.6605, - 0.1246, - 0.0182 ),
	vec3( - 0.5876, 1.1329, - 0.1006 ),
	vec3( - 0.0728, - 0.0083, 1.1187 )
);
const mat3 LINEAR_SRGB_TO_LINEAR_REC2020 = mat3(
	vec3( 0.6274, 0.0691, 0.0164 ),
	vec3( 0.3293, 0.9195, 0.0880 ),
	vec3( 0.0433, 0.0113, 0.8956 )
);
vec3 agxDefaultContrastApprox( vec3 x ) {
	vec3 x2 = x * x;
	vec3 x4 = x2 * x2;
	return + 15.5 * x4 * x2
		- 40.14 * x4 * x
		+ 31.96 * x4
		- 6.868 * x2 * x
		+ 0.4298 * x2
		+ 0.1191 * x
		- 0.00232;
}
vec3 AgXToneMapping( vec3 color ) {
	const mat3 AgXInsetMatrix = mat3(
		vec3( 0.856627153315983, 0.137318972929847, 0.11189821299995 ),
		vec3( 0.0951212405381588, 0.761241990602591, 0.0767994186031903 ),
		vec3( 0.0482516061458583, 0.101439036467562, 0.811302368396859 )
	);
	const mat3 AgXOutsetMatrix = mat3(
		vec3( 1.1271005818144368, - 0.1413297634984383, - 0.14132976349843826 ),
		vec3( - 0.11060664309660323, 1.157823702216272, - 0.11060664309660294 ),
		vec3( - 0.016493938717834573, - 0.016493938717834257, 1.2519364065950405 )
	);
	const float AgxMinEv = - 12.47393;	const float AgxMaxEv = 4.026069;
	color *= toneMappingExposure;
	color = LINEAR_SRGB_TO_LINEAR_REC2020 * color;
	color = AgXInsetMatrix * color;
	color = max( color, 1e-10 );	color = log2( color );
	color = ( color - AgxMinEv ) / ( AgxMaxEv - AgxMinEv );
	color = clamp( color, 0.0, 1.0 );
	color = agxDefaultContrastApprox( color );
	color = AgXOutsetMatrix * color;
	color = pow( max( vec3( 0.0 ), color ), vec3( 2.2 ) );
	color = LINEAR_REC2020_TO_LINEAR_SRGB * color;
	color = clamp( color, 0.0, 1.0 );
	return color;
}
vec3 NeutralToneMapping( vec3 color ) {
	const float StartCompression = 0.8 - 0.04;
	const float Desaturation = 0.15;
	color *= toneMappingExposure;
	float x = min( color.r, min( color.g, color.b ) );
	float offset = x < 0.08 ? x - 6.25 * x * x : 0.04;
	color -= offset;
	float peak = max( color.r, max( color.g, color.b ) );
	if ( peak < StartCompression ) return color;
	float d = 1. - StartCompression;
	float newPeak = 1. - d * d / ( peak + d - StartCompression );
	color *= newPeak / peak;
	float g = 1. - 1. / ( Desaturation * ( peak - newPeak ) + 1. );
	return mix( color, vec3( newPeak ), g );
}
vec3 CustomToneMapping( vec3 color ) { return color; }`,Mw=`#ifdef USE_TRANSMISSION
	material.transmission = transmission;
	material.transmissionAlpha = 1.0;
	material.thickness = thickness;
	material.attenuationDistance = attenuationDistance;
	material.attenuationColor = attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		material.transmission *= texture2D( transmissionMap, vTransmissionMapUv ).r;
	#endif
	#ifdef USE_THICKNESSMAP
		material.thickness *= texture2D( thicknessMap, vThicknessMapUv ).g;
	#endif
	vec3 pos = vWorldPosition;
	vec3 v = normalize( cameraPosition - pos );
	vec3 n = transformNormalByInverseViewMatrix( normal, viewMatrix );
	vec4 transmitted = getIBLVolumeRefraction(
		n, v, material.roughness, material.diffuseContribution, material.specularColorBlended, material.specularF90,
		pos, modelMatrix, viewMatrix, projectionMatrix, material.dispersion, material.ior, material.thickness,
		material.attenuationColor, material.attenuationDistance );
	material.transmissionAlpha = mix( material.transmissionAlpha, transmitted.a, material.transmission );
	totalDiffuse = mix( totalDiffuse, transmitted.rgb, material.transmission );
#endif`,Sw=`#ifdef USE_TRANSMISSION
	uniform float transmission;
	uniform float thickness;
	uniform float attenuationDistance;
	uniform vec3 attenuationColor;
	#ifdef USE_TRANSMISSIONMAP
		uniform sampler2D transmissionMap;
	#endif
	#ifdef USE_THICKNESSMAP
		uniform sampler2D thicknessMap;
	#endif
	uniform vec2 transmissionSamplerSize;
	uniform sampler2D transmissionSamplerMap;
	uniform mat4 modelMatrix;
	uniform mat4 projectionMatrix;
	varying vec3 vWorldPosition;
	float w0( float a ) {
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - a + 3.0 ) - 3.0 ) + 1.0 );
	}
	float w1( float a ) {
		return ( 1.0 / 6.0 ) * ( a *  a * ( 3.0 * a - 6.0 ) + 4.0 );
	}
	float w2( float a ){
		return ( 1.0 / 6.0 ) * ( a * ( a * ( - 3.0 * a + 3.0 ) + 3.0 ) + 1.0 );
	}
	float w3( float a ) {
		return ( 1.0 / 6.0 ) * ( a * a * a );
	}
	float g0( float a ) {
		return w0( a ) + w1( a );
	}
	float g1( float a ) {
		return w2( a ) + w3( a );
	}
	float h0( float a ) {
		return - 1.0 + w1( a ) / ( w0( a ) + w1( a ) );
	}
	float h1( float a ) {
		return 1.0 + w3( a ) / ( w2( a ) + w3( a ) );
	}
	vec4 bicubic( sampler2D tex, vec2 uv, vec4 texelSize, float lod ) {
		uv = uv * texelSize.zw + 0.5;
		vec2 iuv = floor( uv );
		vec2 fuv = fract( uv );
		float g0x = g0( fuv.x );
		float g1x = g1( fuv.x );
		float h0x = h0( fuv.x );
		float h1x = h1( fuv.x );
		float h0y = h0( fuv.y );
		float h1y = h1( fuv.y );
		vec2 p0 = ( vec2( iuv.x + h0x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p1 = ( vec2( iuv.x + h1x, iuv.y + h0y ) - 0.5 ) * texelSize.xy;
		vec2 p2 = ( vec2( iuv.x + h0x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		vec2 p3 = ( vec2( iuv.x + h1x, iuv.y + h1y ) - 0.5 ) * texelSize.xy;
		return g0( fuv.y ) * ( g0x * textureLod( tex, p0, lod ) + g1x * textureLod( tex, p1, lod ) ) +
			g1( fuv.y ) * ( g0x * textureLod( tex, p2, lod ) + g1x * textureLod( tex, p3, lod ) );
	}
	vec4 textureBicubic( sampler2D sampler, vec2 uv, float lod ) {
		vec2 fLodSize = vec2( textureSize( sampler, int( lod ) ) );
		vec2 cLodSize = vec2( textureSize( sampler, int( lod + 1.0 ) ) );
		vec2 fLodSizeInv = 1.0 / fLodSize;
		vec2 cLodSizeInv = 1.0 / cLodSize;
		vec4 fSample = bicubic( sampler, uv, vec4( fLodSizeInv, fLodSize ), floor( lod ) );
		vec4 cSample = bicubic( sampler, uv, vec4( cLodSizeInv, cLodSize ), ceil( lod ) );
		return mix( fSample, cSample, fract( lod ) );
	}
	vec3 getVolumeTransmissionRay( const in vec3 n, const in vec3 v, const in float thickness, const in float ior, const in mat4 modelMatrix ) {
		vec3 refractionVector = refract( - v, normalize( n ), 1.0 / ior );
		vec3 modelScale;
		modelScale.x = length( vec3( modelMatrix[ 0 ].xyz ) );
		modelScale.y = length( vec3( modelMatrix[ 1 ].xyz ) );
		modelScale.z = length( vec3( modelMatrix[ 2 ].xyz ) );
		return normalize( refractionVector ) * thickness * modelScale;
	}
	float applyIorToRoughness( const in float roughness, const in float ior ) {
		return roughness * clamp( ior * 2.0 - 2.0, 0.0, 1.0 );
	}
	vec4 getTransmissionSample( const in vec2 fragCoord, const in float roughness, const in float ior ) {
		float lod = log2( transmissionSamplerSize.x ) * applyIorToRoughness( roughness, ior );
		return textureBicubic( transmissionSamplerMap, fragCoord.xy, lod );
	}
	vec3 volumeAttenuation( const in float transmissionDistance, const in vec3 attenuationColor, const in float attenuationDistance ) {
		if ( isinf( attenuationDistance ) ) {
			return vec3( 1.0 );
		} else {
			vec3 attenuationCoefficient = -log( attenuationColor ) / attenuationDistance;
			vec3 transmittance = exp( - attenuationCoefficient * transmissionDistance );			return transmittance;
		}
	}
	vec4 getIBLVolumeRefraction( const in vec3 n, const in vec3 v, const in float roughness, const in vec3 diffuseColor,
		const in vec3 specularColor, const in float specularF90, const in vec3 position, const in mat4 modelMatrix,
		const in mat4 viewMatrix, const in mat4 projMatrix, const in float dispersion, const in float ior, const in float thickness,
		const in vec3 attenuationColor, const in float attenuationDistance ) {
		vec4 transmittedLight;
		vec3 transmittance;
		#ifdef USE_DISPERSION
			float halfSpread = ( ior - 1.0 ) * 0.025 * dispersion;
			vec3 iors = vec3( ior - halfSpread, ior, ior + halfSpread );
			for ( int i = 0; i < 3; i ++ ) {
				vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, iors[ i ], modelMatrix );
				vec3 refractedRayExit = position + transmissionRay;
				vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
				vec2 refractionCoords = ndcPos.xy / ndcPos.w;
				refractionCoords += 1.0;
				refractionCoords /= 2.0;
				vec4 transmissionSample = getTransmissionSample( refractionCoords, roughness, iors[ i ] );
				transmittedLight[ i ] = transmissionSample[ i ];
				transmittedLight.a += transmissionSample.a;
				transmittance[ i ] = diffuseColor[ i ] * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance )[ i ];
			}
			transmittedLight.a /= 3.0;
		#else
			vec3 transmissionRay = getVolumeTransmissionRay( n, v, thickness, ior, modelMatrix );
			vec3 refractedRayExit = position + transmissionRay;
			vec4 ndcPos = projMatrix * viewMatrix * vec4( refractedRayExit, 1.0 );
			vec2 refractionCoords = ndcPos.xy / ndcPos.w;
			refractionCoords += 1.0;
			refractionCoords /= 2.0;
			transmittedLight = getTransmissionSample( refractionCoords, roughness, ior );
			transmittance = diffuseColor * volumeAttenuation( length( transmissionRay ), attenuationColor, attenuationDistance );
		#endif
		vec3 attenuatedColor = transmittance * transmittedLight.rgb;
		vec3 F = EnvironmentBRDF( n, v, specularColor, specularF90, roughness );
		float transmittanceFactor = ( transmittance.r + transmittance.g + transmittance.b ) / 3.0;
		return vec4( ( 1.0 - F ) * attenuatedColor, 1.0 - ( 1.0 - transmittedLight.a ) * transmittanceFactor );
	}
#endif`,bw=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_SPECULARMAP
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,ww=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	varying vec2 vUv;
#endif
#ifdef USE_MAP
	uniform mat3 mapTransform;
	varying vec2 vMapUv;
#endif
#ifdef USE_ALPHAMAP
	uniform mat3 alphaMapTransform;
	varying vec2 vAlphaMapUv;
#endif
#ifdef USE_LIGHTMAP
	uniform mat3 lightMapTransform;
	varying vec2 vLightMapUv;
#endif
#ifdef USE_AOMAP
	uniform mat3 aoMapTransform;
	varying vec2 vAoMapUv;
#endif
#ifdef USE_BUMPMAP
	uniform mat3 bumpMapTransform;
	varying vec2 vBumpMapUv;
#endif
#ifdef USE_NORMALMAP
	uniform mat3 normalMapTransform;
	varying vec2 vNormalMapUv;
#endif
#ifdef USE_DISPLACEMENTMAP
	uniform mat3 displacementMapTransform;
	varying vec2 vDisplacementMapUv;
#endif
#ifdef USE_EMISSIVEMAP
	uniform mat3 emissiveMapTransform;
	varying vec2 vEmissiveMapUv;
#endif
#ifdef USE_METALNESSMAP
	uniform mat3 metalnessMapTransform;
	varying vec2 vMetalnessMapUv;
#endif
#ifdef USE_ROUGHNESSMAP
	uniform mat3 roughnessMapTransform;
	varying vec2 vRoughnessMapUv;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	uniform mat3 diffuseRoughnessMapTransform;
	varying vec2 vDiffuseRoughnessMapUv;
#endif
#ifdef USE_ANISOTROPYMAP
	uniform mat3 anisotropyMapTransform;
	varying vec2 vAnisotropyMapUv;
#endif
#ifdef USE_CLEARCOATMAP
	uniform mat3 clearcoatMapTransform;
	varying vec2 vClearcoatMapUv;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	uniform mat3 clearcoatNormalMapTransform;
	varying vec2 vClearcoatNormalMapUv;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	uniform mat3 clearcoatRoughnessMapTransform;
	varying vec2 vClearcoatRoughnessMapUv;
#endif
#ifdef USE_SHEEN_COLORMAP
	uniform mat3 sheenColorMapTransform;
	varying vec2 vSheenColorMapUv;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	uniform mat3 sheenRoughnessMapTransform;
	varying vec2 vSheenRoughnessMapUv;
#endif
#ifdef USE_IRIDESCENCEMAP
	uniform mat3 iridescenceMapTransform;
	varying vec2 vIridescenceMapUv;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	uniform mat3 iridescenceThicknessMapTransform;
	varying vec2 vIridescenceThicknessMapUv;
#endif
#ifdef USE_SPECULARMAP
	uniform mat3 specularMapTransform;
	varying vec2 vSpecularMapUv;
#endif
#ifdef USE_SPECULAR_COLORMAP
	uniform mat3 specularColorMapTransform;
	varying vec2 vSpecularColorMapUv;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	uniform mat3 specularIntensityMapTransform;
	varying vec2 vSpecularIntensityMapUv;
#endif
#ifdef USE_TRANSMISSIONMAP
	uniform mat3 transmissionMapTransform;
	varying vec2 vTransmissionMapUv;
#endif
#ifdef USE_THICKNESSMAP
	uniform mat3 thicknessMapTransform;
	varying vec2 vThicknessMapUv;
#endif`,Tw=`#if defined( USE_UV ) || defined( USE_ANISOTROPY )
	vUv = vec3( uv, 1 ).xy;
#endif
#ifdef USE_MAP
	vMapUv = ( mapTransform * vec3( MAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ALPHAMAP
	vAlphaMapUv = ( alphaMapTransform * vec3( ALPHAMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_LIGHTMAP
	vLightMapUv = ( lightMapTransform * vec3( LIGHTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_AOMAP
	vAoMapUv = ( aoMapTransform * vec3( AOMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_BUMPMAP
	vBumpMapUv = ( bumpMapTransform * vec3( BUMPMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_NORMALMAP
	vNormalMapUv = ( normalMapTransform * vec3( NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DISPLACEMENTMAP
	vDisplacementMapUv = ( displacementMapTransform * vec3( DISPLACEMENTMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_EMISSIVEMAP
	vEmissiveMapUv = ( emissiveMapTransform * vec3( EMISSIVEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_METALNESSMAP
	vMetalnessMapUv = ( metalnessMapTransform * vec3( METALNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ROUGHNESSMAP
	vRoughnessMapUv = ( roughnessMapTransform * vec3( ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_DIFFUSE_ROUGHNESSMAP
	vDiffuseRoughnessMapUv = ( diffuseRoughnessMapTransform * vec3( DIFFUSE_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_ANISOTROPYMAP
	vAnisotropyMapUv = ( anisotropyMapTransform * vec3( ANISOTROPYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOATMAP
	vClearcoatMapUv = ( clearcoatMapTransform * vec3( CLEARCOATMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_NORMALMAP
	vClearcoatNormalMapUv = ( clearcoatNormalMapTransform * vec3( CLEARCOAT_NORMALMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_CLEARCOAT_ROUGHNESSMAP
	vClearcoatRoughnessMapUv = ( clearcoatRoughnessMapTransform * vec3( CLEARCOAT_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCEMAP
	vIridescenceMapUv = ( iridescenceMapTransform * vec3( IRIDESCENCEMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_IRIDESCENCE_THICKNESSMAP
	vIridescenceThicknessMapUv = ( iridescenceThicknessMapTransform * vec3( IRIDESCENCE_THICKNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_COLORMAP
	vSheenColorMapUv = ( sheenColorMapTransform * vec3( SHEEN_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SHEEN_ROUGHNESSMAP
	vSheenRoughnessMapUv = ( sheenRoughnessMapTransform * vec3( SHEEN_ROUGHNESSMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULARMAP
	vSpecularMapUv = ( specularMapTransform * vec3( SPECULARMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_COLORMAP
	vSpecularColorMapUv = ( specularColorMapTransform * vec3( SPECULAR_COLORMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_SPECULAR_INTENSITYMAP
	vSpecularIntensityMapUv = ( specularIntensityMapTransform * vec3( SPECULAR_INTENSITYMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_TRANSMISSIONMAP
	vTransmissionMapUv = ( transmissionMapTransform * vec3( TRANSMISSIONMAP_UV, 1 ) ).xy;
#endif
#ifdef USE_THICKNESSMAP
	vThicknessMapUv = ( thicknessMapTransform * vec3( THICKNESSMAP_UV, 1 ) ).xy;
#endif`,Aw=`#if defined( USE_ENVMAP ) || defined( DISTANCE ) || defined ( USE_SHADOWMAP ) || defined ( USE_TRANSMISSION ) || NUM_SPOT_LIGHT_COORDS > 0
	vec4 worldPosition = vec4( transformed, 1.0 );
	#ifdef USE_BATCHING
		worldPosition = batchingMatrix * worldPosition;
	#endif
	#ifdef USE_INSTANCING
		worldPosition = instanceMatrix * worldPosition;
	#endif
	worldPosition = modelMatrix * worldPosition;
#endif`,Ew=`varying vec2 vUv;
uniform mat3 uvTransform;
void main() {
	vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	gl_Position = vec4( position.xy, 1.0, 1.0 );
}`,Cw=`uniform sampler2D t2D;
uniform float backgroundIntensity;
varying vec2 vUv;
void main() {
	vec4 texColor = texture2D( t2D, vUv );
	#ifdef DECODE_VIDEO_TEXTURE
		texColor = vec4( mix( pow( texColor.rgb * 0.9478672986 + vec3( 0.0521327014 ), vec3( 2.4 ) ), texColor.rgb * 0.0773993808, vec3( lessThanEqual( texColor.rgb, vec3( 0.04045 ) ) ) ), texColor.w );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Rw=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,Iw=`uniform float backgroundBlurriness;
uniform float backgroundIntensity;
uniform mat3 backgroundRotation;
varying vec3 vWorldDirection;
#include <envmap_common_pars_fragment>
void main() {
	#ifdef ENVMAP_TYPE_PMREM
		vec4 texColor = textureLod( envMap, backgroundRotation * vWorldDirection, roughnessToMip( backgroundBlurriness ) );
	#else
		vec4 texColor = textureCube( envMap, backgroundRotation * vWorldDirection );
	#endif
	texColor.rgb *= backgroundIntensity;
	gl_FragColor = texColor;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Pw=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
	gl_Position.z = gl_Position.w;
}`,Lw=`uniform samplerCube tCube;
uniform float tFlip;
uniform float opacity;
varying vec3 vWorldDirection;
void main() {
	vec4 texColor = textureCube( tCube, vec3( tFlip * vWorldDirection.x, vWorldDirection.yz ) );
	gl_FragColor = texColor;
	gl_FragColor.a *= opacity;
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Nw=`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
varying vec2 vHighPrecisionZW;
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vHighPrecisionZW = gl_Position.zw;
}`,Dw=`#if DEPTH_PACKING == 3200
	uniform float opacity;
#endif
#include <common>
#include <packing>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
varying vec2 vHighPrecisionZW;
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#if DEPTH_PACKING == 3200
		diffuseColor.a = opacity;
	#endif
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <logdepthbuf_fragment>
	#ifdef USE_REVERSED_DEPTH_BUFFER
		float fragCoordZ = vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ];
	#else
		float fragCoordZ = 0.5 * vHighPrecisionZW[ 0 ] / vHighPrecisionZW[ 1 ] + 0.5;
	#endif
	#if DEPTH_PACKING == 3200
		gl_FragColor = vec4( vec3( 1.0 - fragCoordZ ), opacity );
	#elif DEPTH_PACKING == 3201
		gl_FragColor = packDepthToRGBA( fragCoordZ );
	#elif DEPTH_PACKING == 3202
		gl_FragColor = vec4( packDepthToRGB( fragCoordZ ), 1.0 );
	#elif DEPTH_PACKING == 3203
		gl_FragColor = vec4( packDepthToRG( fragCoordZ ), 0.0, 1.0 );
	#endif
}`,Ow=`#define DISTANCE
varying vec3 vWorldPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <skinbase_vertex>
	#include <morphinstance_vertex>
	#ifdef USE_DISPLACEMENTMAP
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <worldpos_vertex>
	#include <clipping_planes_vertex>
	vWorldPosition = worldPosition.xyz;
}`,Uw=`#define DISTANCE
uniform vec3 referencePosition;
uniform float nearDistance;
uniform float farDistance;
varying vec3 vWorldPosition;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 1.0 );
	#include <clipping_planes_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	float dist = length( vWorldPosition - referencePosition );
	dist = ( dist - nearDistance ) / ( farDistance - nearDistance );
	dist = saturate( dist );
	gl_FragColor = vec4( dist, 0.0, 0.0, 1.0 );
}`,Fw=`varying vec3 vWorldDirection;
#include <common>
void main() {
	vWorldDirection = transformDirection( position, modelMatrix );
	#include <begin_vertex>
	#include <project_vertex>
}`,kw=`uniform sampler2D tEquirect;
varying vec3 vWorldDirection;
#include <common>
void main() {
	vec3 direction = normalize( vWorldDirection );
	vec2 sampleUV = equirectUv( direction );
	gl_FragColor = texture2D( tEquirect, sampleUV );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
}`,Bw=`uniform float scale;
attribute float lineDistance;
varying float vLineDistance;
#include <common>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	vLineDistance = scale * lineDistance;
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,zw=`uniform vec3 diffuse;
uniform float opacity;
uniform float dashSize;
uniform float totalSize;
varying float vLineDistance;
#include <common>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	if ( mod( vLineDistance, totalSize ) > dashSize ) {
		discard;
	}
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,Gw=`#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#if defined ( USE_ENVMAP ) || defined ( USE_SKINNING )
		#include <beginnormal_vertex>
		#include <morphnormal_vertex>
		#include <skinbase_vertex>
		#include <skinnormal_vertex>
		#include <defaultnormal_vertex>
	#endif
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <fog_vertex>
}`,Vw=`uniform vec3 diffuse;
uniform float opacity;
#ifndef FLAT_SHADED
	varying vec3 vNormal;
#endif
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <fog_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	#ifdef USE_LIGHTMAP
		vec4 lightMapTexel = texture2D( lightMap, vLightMapUv );
		reflectedLight.indirectDiffuse += lightMapTexel.rgb * lightMapIntensity * RECIPROCAL_PI;
	#else
		reflectedLight.indirectDiffuse += vec3( 1.0 );
	#endif
	#include <aomap_fragment>
	reflectedLight.indirectDiffuse *= diffuseColor.rgb;
	vec3 outgoingLight = reflectedLight.indirectDiffuse;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Hw=`#define LAMBERT
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,Ww=`#define LAMBERT
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_lambert_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_lambert_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Xw=`#define MATCAP
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <color_pars_vertex>
#include <displacementmap_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
	vViewPosition = - mvPosition.xyz;
}`,$w=`#define MATCAP
uniform vec3 diffuse;
uniform float opacity;
uniform sampler2D matcap;
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	vec3 viewDir = normalize( vViewPosition );
	vec3 x = normalize( vec3( viewDir.z, 0.0, - viewDir.x ) );
	vec3 y = cross( viewDir, x );
	vec2 uv = vec2( dot( x, normal ), dot( y, normal ) ) * 0.495 + 0.5;
	#ifdef USE_MATCAP
		vec4 matcapColor = texture2D( matcap, uv );
	#else
		vec4 matcapColor = vec4( vec3( mix( 0.2, 0.8, uv.y ) ), 1.0 );
	#endif
	vec3 outgoingLight = diffuseColor.rgb * matcapColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,qw=`#define NORMAL
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	vViewPosition = - mvPosition.xyz;
#endif
}`,Yw=`#define NORMAL
uniform float opacity;
#if defined( FLAT_SHADED ) || defined( USE_BUMPMAP ) || defined( USE_NORMALMAP_TANGENTSPACE )
	varying vec3 vViewPosition;
#endif
#include <uv_pars_fragment>
#include <normal_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( 0.0, 0.0, 0.0, opacity );
	#include <clipping_planes_fragment>
	#include <logdepthbuf_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	gl_FragColor = vec4( normalize( normal ) * 0.5 + 0.5, diffuseColor.a );
	#ifdef OPAQUE
		gl_FragColor.a = 1.0;
	#endif
}`,Jw=`#define PHONG
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <envmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <envmap_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,Zw=`#define PHONG
uniform vec3 diffuse;
uniform vec3 emissive;
uniform vec3 specular;
uniform float shininess;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_phong_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <specularmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <specularmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_phong_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + reflectedLight.directSpecular + reflectedLight.indirectSpecular + totalEmissiveRadiance;
	#include <envmap_fragment>
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Kw=`#define STANDARD
varying vec3 vViewPosition;
#ifdef USE_TRANSMISSION
	varying vec3 vWorldPosition;
#endif
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
#ifdef USE_TRANSMISSION
	vWorldPosition = worldPosition.xyz;
#endif
}`,jw=`#define STANDARD
#ifdef PHYSICAL
	#define IOR
	#define USE_SPECULAR
#endif
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float roughness;
uniform float metalness;
uniform float opacity;
#ifdef IOR
	uniform float ior;
#endif
#ifdef USE_SPECULAR
	uniform float specularIntensity;
	uniform vec3 specularColor;
	#ifdef USE_SPECULAR_COLORMAP
		uniform sampler2D specularColorMap;
	#endif
	#ifdef USE_SPECULAR_INTENSITYMAP
		uniform sampler2D specularIntensityMap;
	#endif
#endif
#ifdef USE_CLEARCOAT
	uniform float clearcoat;
	uniform float clearcoatRoughness;
#endif
#ifdef USE_DIFFUSE_ROUGHNESS
	uniform float diffuseRoughness;
	#ifdef USE_DIFFUSE_ROUGHNESSMAP
		uniform sampler2D diffuseRoughnessMap;
	#endif
#endif
#ifdef USE_DISPERSION
	uniform float dispersion;
#endif
#ifdef USE_RETROREFLECTION
	uniform float retroreflectivity;
#endif
#ifdef USE_IRIDESCENCE
	uniform float iridescence;
	uniform float iridescenceIOR;
	uniform float iridescenceThicknessMinimum;
	uniform float iridescenceThicknessMaximum;
#endif
#ifdef USE_SHEEN
	uniform vec3 sheenColor;
	uniform float sheenRoughness;
	#ifdef USE_SHEEN_COLORMAP
		uniform sampler2D sheenColorMap;
	#endif
	#ifdef USE_SHEEN_ROUGHNESSMAP
		uniform sampler2D sheenRoughnessMap;
	#endif
#endif
#ifdef USE_ANISOTROPY
	uniform vec2 anisotropyVector;
	#ifdef USE_ANISOTROPYMAP
		uniform sampler2D anisotropyMap;
	#endif
#endif
varying vec3 vViewPosition;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <iridescence_fragment>
#include <envmap_common_pars_fragment>
#include <envmap_physical_pars_fragment>
#include <fog_pars_fragment>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_physical_pars_fragment>
#include <transmission_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <clearcoat_pars_fragment>
#include <iridescence_pars_fragment>
#include <roughnessmap_pars_fragment>
#include <metalnessmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <roughnessmap_fragment>
	#include <metalnessmap_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <clearcoat_normal_fragment_begin>
	#include <clearcoat_normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_physical_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 totalDiffuse = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse;
	vec3 totalSpecular = reflectedLight.directSpecular + reflectedLight.indirectSpecular;
	#include <transmission_fragment>
	vec3 outgoingLight = totalDiffuse + totalSpecular + totalEmissiveRadiance;
	#ifdef USE_SHEEN
 
		outgoingLight = outgoingLight + sheenSpecularDirect + sheenSpecularIndirect;
 
 	#endif
	#ifdef USE_CLEARCOAT
		float dotNVcc = saturate( dot( geometryClearcoatNormal, geometryViewDir ) );
		vec3 Fcc = F_Schlick( material.clearcoatF0, material.clearcoatF90, dotNVcc );
		outgoingLight = outgoingLight * ( 1.0 - material.clearcoat * Fcc ) + ( clearcoatSpecularDirect + clearcoatSpecularIndirect ) * material.clearcoat;
	#endif
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,Qw=`#define TOON
varying vec3 vViewPosition;
#include <common>
#include <batching_pars_vertex>
#include <uv_pars_vertex>
#include <displacementmap_pars_vertex>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <normal_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <shadowmap_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <normal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <displacementmap_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	vViewPosition = - mvPosition.xyz;
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,t1=`#define TOON
uniform vec3 diffuse;
uniform vec3 emissive;
uniform float opacity;
#include <common>
#include <dithering_pars_fragment>
#include <color_pars_fragment>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <aomap_pars_fragment>
#include <lightmap_pars_fragment>
#include <emissivemap_pars_fragment>
#include <gradientmap_pars_fragment>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <normal_pars_fragment>
#include <lights_toon_pars_fragment>
#include <shadowmap_pars_fragment>
#include <bumpmap_pars_fragment>
#include <normalmap_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	ReflectedLight reflectedLight = ReflectedLight( vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ), vec3( 0.0 ) );
	vec3 totalEmissiveRadiance = emissive;
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <color_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	#include <normal_fragment_begin>
	#include <normal_fragment_maps>
	#include <emissivemap_fragment>
	#include <lights_toon_fragment>
	#include <lights_fragment_begin>
	#include <lights_fragment_maps>
	#include <lights_fragment_end>
	#include <aomap_fragment>
	vec3 outgoingLight = reflectedLight.directDiffuse + reflectedLight.indirectDiffuse + totalEmissiveRadiance;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
	#include <dithering_fragment>
}`,e1=`uniform float size;
uniform float scale;
#include <common>
#include <color_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
#ifdef USE_POINTS_UV
	varying vec2 vUv;
	uniform mat3 uvTransform;
#endif
void main() {
	#ifdef USE_POINTS_UV
		vUv = ( uvTransform * vec3( uv, 1 ) ).xy;
	#endif
	#include <color_vertex>
	#include <morphinstance_vertex>
	#include <morphcolor_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <project_vertex>
	gl_PointSize = size;
	#ifdef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) gl_PointSize *= ( scale / - mvPosition.z );
	#endif
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <worldpos_vertex>
	#include <fog_vertex>
}`,n1=`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <color_pars_fragment>
#include <map_particle_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_particle_fragment>
	#include <color_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,i1=`#include <common>
#include <batching_pars_vertex>
#include <fog_pars_vertex>
#include <morphtarget_pars_vertex>
#include <skinning_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <shadowmap_pars_vertex>
void main() {
	#include <batching_vertex>
	#include <beginnormal_vertex>
	#include <morphinstance_vertex>
	#include <morphnormal_vertex>
	#include <skinbase_vertex>
	#include <skinnormal_vertex>
	#include <defaultnormal_vertex>
	#include <begin_vertex>
	#include <morphtarget_vertex>
	#include <skinning_vertex>
	#include <project_vertex>
	#include <logdepthbuf_vertex>
	#include <worldpos_vertex>
	#include <shadowmap_vertex>
	#include <fog_vertex>
}`,s1=`uniform vec3 color;
uniform float opacity;
#include <common>
#include <fog_pars_fragment>
#include <bsdfs>
#include <lights_pars_begin>
#include <logdepthbuf_pars_fragment>
#include <shadowmap_pars_fragment>
#include <shadowmask_pars_fragment>
void main() {
	#include <logdepthbuf_fragment>
	gl_FragColor = vec4( color, opacity * ( 1.0 - getShadowMask() ) );
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
	#include <premultiplied_alpha_fragment>
}`,r1=`uniform float rotation;
uniform vec2 center;
#include <common>
#include <uv_pars_vertex>
#include <fog_pars_vertex>
#include <logdepthbuf_pars_vertex>
#include <clipping_planes_pars_vertex>
void main() {
	#include <uv_vertex>
	vec4 mvPosition = modelViewMatrix[ 3 ];
	vec2 scale = vec2( length( modelMatrix[ 0 ].xyz ), length( modelMatrix[ 1 ].xyz ) );
	#ifndef USE_SIZEATTENUATION
		bool isPerspective = isPerspectiveMatrix( projectionMatrix );
		if ( isPerspective ) scale *= - mvPosition.z;
	#endif
	vec2 alignedPosition = ( position.xy - ( center - vec2( 0.5 ) ) ) * scale;
	vec2 rotatedPosition;
	rotatedPosition.x = cos( rotation ) * alignedPosition.x - sin( rotation ) * alignedPosition.y;
	rotatedPosition.y = sin( rotation ) * alignedPosition.x + cos( rotation ) * alignedPosition.y;
	mvPosition.xy += rotatedPosition;
	gl_Position = projectionMatrix * mvPosition;
	#include <logdepthbuf_vertex>
	#include <clipping_planes_vertex>
	#include <fog_vertex>
}`,o1=`uniform vec3 diffuse;
uniform float opacity;
#include <common>
#include <uv_pars_fragment>
#include <map_pars_fragment>
#include <alphamap_pars_fragment>
#include <alphatest_pars_fragment>
#include <alphahash_pars_fragment>
#include <fog_pars_fragment>
#include <logdepthbuf_pars_fragment>
#include <clipping_planes_pars_fragment>
void main() {
	vec4 diffuseColor = vec4( diffuse, opacity );
	#include <clipping_planes_fragment>
	vec3 outgoingLight = vec3( 0.0 );
	#include <logdepthbuf_fragment>
	#include <map_fragment>
	#include <alphamap_fragment>
	#include <alphatest_fragment>
	#include <alphahash_fragment>
	outgoingLight = diffuseColor.rgb;
	#include <opaque_fragment>
	#include <tonemapping_fragment>
	#include <colorspace_fragment>
	#include <fog_fragment>
}`,$t={alphahash_fragment:CS,alphahash_pars_fragment:RS,alphamap_fragment:IS,alphamap_pars_fragment:PS,alphatest_fragment:LS,alphatest_pars_fragment:NS,aomap_fragment:DS,aomap_pars_fragment:OS,batching_pars_vertex:US,batching_vertex:FS,begin_vertex:kS,beginnormal_vertex:BS,bsdfs:zS,iridescence_fragment:GS,bumpmap_pars_fragment:VS,clipping_planes_fragment:HS,clipping_planes_pars_fragment:WS,clipping_planes_pars_vertex:XS,clipping_planes_vertex:$S,color_fragment:qS,color_pars_fragment:YS,color_pars_vertex:JS,color_vertex:ZS,common:KS,defaultnormal_vertex:jS,displacementmap_pars_vertex:QS,displacementmap_vertex:tb,emissivemap_fragment:eb,emissivemap_pars_fragment:nb,colorspace_fragment:ib,colorspace_pars_fragment:sb,envmap_fragment:rb,envmap_common_pars_fragment:ob,envmap_pars_fragment:ab,envmap_pars_vertex:lb,envmap_physical_pars_fragment:yb,envmap_vertex:cb,fog_vertex:hb,fog_pars_vertex:ub,fog_fragment:db,fog_pars_fragment:fb,gradientmap_pars_fragment:pb,lightmap_pars_fragment:mb,lights_lambert_fragment:gb,lights_lambert_pars_fragment:_b,lights_pars_begin:xb,lights_toon_fragment:vb,lights_toon_pars_fragment:Mb,lights_phong_fragment:Sb,lights_phong_pars_fragment:bb,lights_physical_fragment:wb,lights_physical_pars_fragment:Tb,lights_fragment_begin:Ab,lights_fragment_maps:Eb,lights_fragment_end:Cb,lightprobes_pars_fragment:Rb,logdepthbuf_fragment:Ib,logdepthbuf_pars_fragment:Pb,logdepthbuf_pars_vertex:Lb,logdepthbuf_vertex:Nb,map_fragment:Db,map_pars_fragment:Ob,map_particle_fragment:Ub,map_particle_pars_fragment:Fb,metalnessmap_fragment:kb,metalnessmap_pars_fragment:Bb,morphinstance_vertex:zb,morphcolor_vertex:Gb,morphnormal_vertex:Vb,morphtarget_pars_vertex:Hb,morphtarget_vertex:Wb,normal_fragment_begin:Xb,normal_fragment_maps:$b,normal_pars_fragment:qb,normal_pars_vertex:Yb,normal_vertex:Jb,normalmap_pars_fragment:Zb,clearcoat_normal_fragment_begin:Kb,clearcoat_normal_fragment_maps:jb,clearcoat_pars_fragment:Qb,iridescence_pars_fragment:tw,opaque_fragment:ew,packing:nw,premultiplied_alpha_fragment:iw,project_vertex:sw,dithering_fragment:rw,dithering_pars_fragment:ow,roughnessmap_fragment:aw,roughnessmap_pars_fragment:lw,shadowmap_pars_fragment:cw,shadowmap_pars_vertex:hw,shadowmap_vertex:uw,shadowmask_pars_fragment:dw,skinbase_vertex:fw,skinning_pars_vertex:pw,skinning_vertex:mw,skinnormal_vertex:gw,specularmap_fragment:_w,specularmap_pars_fragment:xw,tonemapping_fragment:yw,tonemapping_pars_fragment:vw,transmission_fragment:Mw,transmission_pars_fragment:Sw,uv_pars_fragment:bw,uv_pars_vertex:ww,uv_vertex:Tw,worldpos_vertex:Aw,background_vert:Ew,background_frag:Cw,backgroundCube_vert:Rw,backgroundCube_frag:Iw,cube_vert:Pw,cube_frag:Lw,depth_vert:Nw,depth_frag:Dw,distance_vert:Ow,distance_frag:Uw,equirect_vert:Fw,equirect_frag:kw,linedashed_vert:Bw,linedashed_frag:zw,meshbasic_vert:Gw,meshbasic_frag:Vw,meshlambert_vert:Hw,meshlambert_frag:Ww,meshmatcap_vert:Xw,meshmatcap_frag:$w,meshnormal_vert:qw,meshnormal_frag:Yw,meshphong_vert:Jw,meshphong_frag:Zw,meshphysical_vert:Kw,meshphysical_frag:jw,meshtoon_vert:Qw,meshtoon_frag:t1,points_vert:e1,points_frag:n1,shadow_vert:i1,shadow_frag:s1,sprite_vert:r1,sprite_frag:o1},xt={common:{diffuse:{value:new ee(16777215)},opacity:{value:1},map:{value:null},mapTransform:{value:new Bt},alphaMap:{value:null},alphaMapTransform:{value:new Bt},alphaTest:{value:0}},specularmap:{specularMap:{value:null},specularMapTransform:{value:new Bt}},envmap:{envMap:{value:null},envMapRotation:{value:new Bt},reflectivity:{value:1},ior:{value:1.5},refractionRatio:{value:.98},dfgLUT:{value:null}},aomap:{aoMap:{value:null},aoMapIntensity:{value:1},aoMapTransform:{value:new Bt}},lightmap:{lightMap:{value:null},lightMapIntensity:{value:1},lightMapTransform:{value:new Bt}},bumpmap:{bumpMap:{value:null},bumpMapTransform:{value:new Bt},bumpScale:{value:1}},normalmap:{normalMap:{value:null},normalMapTransform:{value:new Bt},normalScale:{value:new ne(1,1)}},displacementmap:{displacementMap:{value:null},displacementMapTransform:{value:new Bt},displacementScale:{value:1},displacementBias:{value:0}},emissivemap:{emissiveMap:{value:null},emissiveMapTransform:{value:new Bt}},metalnessmap:{metalnessMap:{value:null},metalnessMapTransform:{value:new Bt}},roughnessmap:{roughnessMap:{value:null},roughnessMapTransform:{value:new Bt}},gradientmap:{gradientMap:{value:null}},fog:{fogDensity:{value:25e-5},fogNear:{value:1},fogFar:{value:2e3},fogColor:{value:new ee(16777215)}},lights:{ambientLightColor:{value:[]},lightProbe:{value:[]},sunLights:{value:[],properties:{direction:{},color:{}}},sunLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},sunShadowMatrix:{value:[]},sunShadowCascade:{value:[]},directionalLights:{value:[],properties:{direction:{},color:{}}},directionalLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},directionalShadowMatrix:{value:[]},spotLights:{value:[],properties:{color:{},position:{},direction:{},distance:{},coneCos:{},penumbraCos:{},decay:{}}},spotLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{}}},spotLightMap:{value:[]},spotLightMatrix:{value:[]},pointLights:{value:[],properties:{color:{},position:{},decay:{},distance:{}}},pointLightShadows:{value:[],properties:{shadowIntensity:1,shadowBias:{},shadowNormalBias:{},shadowRadius:{},shadowMapSize:{},shadowCameraNear:{},shadowCameraFar:{}}},pointShadowMatrix:{value:[]},hemisphereLights:{value:[],properties:{direction:{},skyColor:{},groundColor:{}}},rectAreaLights:{value:[],properties:{color:{},position:{},width:{},height:{}}},ltc_1:{value:null},ltc_2:{value:null},probesSH:{value:[]},probesMin:{value:[]},probesMax:{value:[]},probesResolution:{value:[]}},points:{diffuse:{value:new ee(16777215)},opacity:{value:1},size:{value:1},scale:{value:1},map:{value:null},alphaMap:{value:null},alphaMapTransform:{value:new Bt},alphaTest:{value:0},uvTransform:{value:new Bt}},sprite:{diffuse:{value:new ee(16777215)},opacity:{value:1},center:{value:new ne(.5,.5)},rotation:{value:0},map:{value:null},mapTransform:{value:new Bt},alphaMap:{value:null},alphaMapTransform:{value:new Bt},alphaTest:{value:0}}},fi={basic:{uniforms:en([xt.common,xt.specularmap,xt.envmap,xt.aomap,xt.lightmap,xt.fog]),vertexShader:$t.meshbasic_vert,fragmentShader:$t.meshbasic_frag},lambert:{uniforms:en([xt.common,xt.specularmap,xt.envmap,xt.aomap,xt.lightmap,xt.emissivemap,xt.bumpmap,xt.normalmap,xt.displacementmap,xt.fog,xt.lights,{emissive:{value:new ee(0)},envMapIntensity:{value:1}}]),vertexShader:$t.meshlambert_vert,fragmentShader:$t.meshlambert_frag},phong:{uniforms:en([xt.common,xt.specularmap,xt.envmap,xt.aomap,xt.lightmap,xt.emissivemap,xt.bumpmap,xt.normalmap,xt.displacementmap,xt.fog,xt.lights,{emissive:{value:new ee(0)},specular:{value:new ee(1118481)},shininess:{value:30},envMapIntensity:{value:1}}]),vertexShader:$t.meshphong_vert,fragmentShader:$t.meshphong_frag},standard:{uniforms:en([xt.common,xt.envmap,xt.aomap,xt.lightmap,xt.emissivemap,xt.bumpmap,xt.normalmap,xt.displacementmap,xt.roughnessmap,xt.metalnessmap,xt.fog,xt.lights,{emissive:{value:new ee(0)},roughness:{value:1},metalness:{value:0},envMapIntensity:{value:1}}]),vertexShader:$t.meshphysical_vert,fragmentShader:$t.meshphysical_frag},toon:{uniforms:en([xt.common,xt.aomap,xt.lightmap,xt.emissivemap,xt.bumpmap,xt.normalmap,xt.displacementmap,xt.gradientmap,xt.fog,xt.lights,{emissive:{value:new ee(0)}}]),vertexShader:$t.meshtoon_vert,fragmentShader:$t.meshtoon_frag},matcap:{uniforms:en([xt.common,xt.bumpmap,xt.normalmap,xt.displacementmap,xt.fog,{matcap:{value:null}}]),vertexShader:$t.meshmatcap_vert,fragmentShader:$t.meshmatcap_frag},points:{uniforms:en([xt.points,xt.fog]),vertexShader:$t.points_vert,fragmentShader:$t.points_frag},dashed:{uniforms:en([xt.common,xt.fog,{scale:{value:1},dashSize:{value:1},totalSize:{value:2}}]),vertexShader:$t.linedashed_vert,fragmentShader:$t.linedashed_frag},depth:{uniforms:en([xt.common,xt.displacementmap]),vertexShader:$t.depth_vert,fragmentShader:$t.depth_frag},normal:{uniforms:en([xt.common,xt.bumpmap,xt.normalmap,xt.displacementmap,{opacity:{value:1}}]),vertexShader:$t.meshnormal_vert,fragmentShader:$t.meshnormal_frag},sprite:{uniforms:en([xt.sprite,xt.fog]),vertexShader:$t.sprite_vert,fragmentShader:$t.sprite_frag},background:{uniforms:{uvTransform:{value:new Bt},t2D:{value:null},backgroundIntensity:{value:1}},vertexShader:$t.background_vert,fragmentShader:$t.background_frag},backgroundCube:{uniforms:{envMap:{value:null},backgroundBlurriness:{value:0},backgroundIntensity:{value:1},backgroundRotation:{value:new Bt}},vertexShader:$t.backgroundCube_vert,fragmentShader:$t.backgroundCube_frag},cube:{uniforms:{tCube:{value:null},tFlip:{value:-1},opacity:{value:1}},vertexShader:$t.cube_vert,fragmentShader:$t.cube_frag},equirect:{uniforms:{tEquirect:{value:null}},vertexShader:$t.equirect_vert,fragmentShader:$t.equirect_frag},distance:{uniforms:en([xt.common,xt.displacementmap,{referencePosition:{value:new V},nearDistance:{value:1},farDistance:{value:1e3}}]),vertexShader:$t.distance_vert,fragmentShader:$t.distance_frag},shadow:{uniforms:en([xt.lights,xt.fog,{color:{value:new ee(0)},opacity:{value:1}}]),vertexShader:$t.shadow_vert,fragmentShader:$t.shadow_frag}};fi.physical={uniforms:en([fi.standard.uniforms,{clearcoat:{value:0},clearcoatMap:{value:null},clearcoatMapTransform:{value:new Bt},clearcoatNormalMap:{value:null},clearcoatNormalMapTransform:{value:new Bt},clearcoatNormalScale:{value:new ne(1,1)},clearcoatRoughness:{value:0},clearcoatRoughnessMap:{value:null},clearcoatRoughnessMapTransform:{value:new Bt},diffuseRoughness:{value:0},diffuseRoughnessMap:{value:null},diffuseRoughnessMapTransform:{value:new Bt},dispersion:{value:0},retroreflectivity:{value:0},iridescence:{value:0},iridescenceMap:{value:null},iridescenceMapTransform:{value:new Bt},iridescenceIOR:{value:1.3},iridescenceThicknessMinimum:{value:100},iridescenceThicknessMaximum:{value:400},iridescenceThicknessMap:{value:null},iridescenceThicknessMapTransform:{value:new Bt},sheen:{value:0},sheenColor:{value:new ee(0)},sheenColorMap:{value:null},sheenColorMapTransform:{value:new Bt},sheenRoughness:{value:1},sheenRoughnessMap:{value:null},sheenRoughnessMapTransform:{value:new Bt},transmission:{value:0},transmissionMap:{value:null},transmissionMapTransform:{value:new Bt},transmissionSamplerSize:{value:new ne},transmissionSamplerMap:{value:null},thickness:{value:0},thicknessMap:{value:null},thicknessMapTransform:{value:new Bt},attenuationDistance:{value:0},attenuationColor:{value:new ee(0)},specularColor:{value:new ee(1,1,1)},specularColorMap:{value:null},specularColorMapTransform:{value:new Bt},specularIntensity:{value:1},specularIntensityMap:{value:null},specularIntensityMapTransform:{value:new Bt},anisotropyVector:{value:new ne},anisotropyMap:{value:null},anisotropyMapTransform:{value:new Bt}}]),vertexShader:$t.meshphysical_vert,fragmentShader:$t.meshphysical_frag};var cc={r:0,b:0,g:0},a1=new ye,E_=new Bt;E_.set(-1,0,0,0,1,0,0,0,1);function l1(i,t,e,n,s,r){let o=new ee(0),a=s===!0?0:1,l,c,h=null,d=0,u=null;function f(b){let I=b.isScene===!0?b.background:null;if(I&&I.isTexture){let A=b.backgroundBlurriness>0;I=t.get(I,A)}return I}function m(b){let I=!1,A=f(b);A===null?g(o,a):A&&A.isColor&&(g(A,1),I=!0);let C=i.xr.getEnvironmentBlendMode();C==="additive"?e.buffers.color.setClear(0,0,0,1,r):C==="alpha-blend"&&e.buffers.color.setClear(0,0,0,0,r),(i.autoClear||I)&&(e.buffers.depth.setTest(!0),e.buffers.depth.setMask(!0),e.buffers.color.setMask(!0),i.clear(i.autoClearColor,i.autoClearDepth,i.autoClearStencil))}function S(b,I){let A=f(I);A&&A.isCubeTexture?(c===void 0&&(c=new kn(new Zs(1,1,1),new ci({name:"BackgroundCubeMaterial",uniforms:ps(fi.backgroundCube.uniforms),vertexShader:fi.backgroundCube.vertexShader,fragmentShader:fi.backgroundCube.fragmentShader,side:ln,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),c.geometry.deleteAttribute("normal"),c.geometry.deleteAttribute("uv"),c.onBeforeRender=function(C,E,y){this.matrixWorld.copyPosition(y.matrixWorld)},Object.defineProperty(c.material,"envMap",{get:function(){return this.uniforms.envMap.value}}),n.update(c)),c.material.uniforms.envMap.value=A,c.material.uniforms.backgroundBlurriness.value=I.backgroundBlurriness,c.material.uniforms.backgroundIntensity.value=I.backgroundIntensity,c.material.uniforms.backgroundRotation.value.setFromMatrix4(a1.makeRotationFromEuler(I.backgroundRotation)).transpose(),A.isRenderTargetTexture===!1&&c.material.uniforms.backgroundRotation.value.premultiply(E_),c.material.toneMapped=Kt.getTransfer(A.colorSpace)!==se,(h!==A||d!==A.version||u!==i.toneMapping)&&(c.material.needsUpdate=!0,h=A,d=A.version,u=i.toneMapping),c.layers.enableAll(),b.unshift(c,c.geometry,c.material,0,0,null)):A&&A.isTexture&&(l===void 0&&(l=new kn(new so(2,2),new ci({name:"BackgroundMaterial",uniforms:ps(fi.background.uniforms),vertexShader:fi.background.vertexShader,fragmentShader:fi.background.fragmentShader,side:hi,depthTest:!1,depthWrite:!1,fog:!1,allowOverride:!1})),l.geometry.deleteAttribute("normal"),Object.defineProperty(l.material,"map",{get:function(){return this.uniforms.t2D.value}}),n.update(l)),l.material.uniforms.t2D.value=A,l.material.uniforms.backgroundIntensity.value=I.backgroundIntensity,l.material.toneMapped=Kt.getTransfer(A.colorSpace)!==se,A.matrixAutoUpdate===!0&&A.updateMatrix(),l.material.uniforms.uvTransform.value.copy(A.matrix),(h!==A||d!==A.version||u!==i.toneMapping)&&(l.material.needsUpdate=!0,h=A,d=A.version,u=i.toneMapping),l.layers.enableAll(),b.unshift(l,l.geometry,l.material,0,0,null))}function g(b,I){b.getRGB(cc,ld(i)),e.buffers.color.setClear(cc.r,cc.g,cc.b,I,r)}function _(){c!==void 0&&(c.geometry.dispose(),c.material.dispose(),c=void 0),l!==void 0&&(l.geometry.dispose(),l.material.dispose(),l=void 0)}return{getClearColor:function(){return o},setClearColor:function(b,I=1){o.set(b),a=I,g(o,a)},getClearAlpha:function(){return a},setClearAlpha:function(b){a=b,g(o,a)},render:m,addToRenderList:S,dispose:_}}function c1(i,t){let e=i.getParameter(i.MAX_VERTEX_ATTRIBS),n={},s=u(null),r=s,o=!1;function a(O,z,Y,L,$){let j=!1,H=d(O,L,Y,z);r!==H&&(r=H,c(r.object)),j=f(O,L,Y,$),j&&m(O,L,Y,$),$!==null&&t.update($,i.ELEMENT_ARRAY_BUFFER),(j||o)&&(o=!1,A(O,z,Y,L),$!==null&&i.bindBuffer(i.ELEMENT_ARRAY_BUFFER,t.get($).buffer))}function l(){return i.createVertexArray()}function c(O){return i.bindVertexArray(O)}function h(O){return i.deleteVertexArray(O)}function d(O,z,Y,L){let $=L.wireframe===!0,j=n[z.id];j===void 0&&(j={},n[z.id]=j);let H=O.isInstancedMesh===!0?O.id:0,rt=j[H];rt===void 0&&(rt={},j[H]=rt);let X=rt[Y.id];X===void 0&&(X={},rt[Y.id]=X);let tt=X[$];return tt===void 0&&(tt=u(l()),X[$]=tt),tt}function u(O){let z=[],Y=[],L=[];for(let $=0;$<e;$++)z[$]=0,Y[$]=0,L[$]=0;return{geometry:null,program:null,wireframe:!1,newAttributes:z,enabledAttributes:Y,attributeDivisors:L,object:O,attributes:{},index:null}}function f(O,z,Y,L){let $=r.attributes,j=z.attributes,H=0,rt=Y.getAttributes();for(let X in rt)if(rt[X].location>=0){let et=$[X],Et=j[X];if(Et===void 0&&(X==="instanceMatrix"&&O.instanceMatrix&&(Et=O.instanceMatrix),X==="instanceColor"&&O.instanceColor&&(Et=O.instanceColor)),et===void 0||et.attribute!==Et||Et&&et.data!==Et.data)return!0;H++}return r.attributesNum!==H||r.index!==L}function m(O,z,Y,L){let $={},j=z.attributes,H=0,rt=Y.getAttributes();for(let X in rt)if(rt[X].location>=0){let et=j[X];et===void 0&&(X==="instanceMatrix"&&O.instanceMatrix&&(et=O.instanceMatrix),X==="instanceColor"&&O.instanceColor&&(et=O.instanceColor));let Et={};Et.attribute=et,et&&et.data&&(Et.data=et.data),$[X]=Et,H++}r.attributes=$,r.attributesNum=H,r.index=L}function S(){let O=r.newAttributes;for(let z=0,Y=O.length;z<Y;z++)O[z]=0}function g(O){_(O,0)}function _(O,z){let Y=r.newAttributes,L=r.enabledAttributes,$=r.attributeDivisors;Y[O]=1,L[O]===0&&(i.enableVertexAttribArray(O),L[O]=1),$[O]!==z&&(i.vertexAttribDivisor(O,z),$[O]=z)}function b(){let O=r.newAttributes,z=r.enabledAttributes;for(let Y=0,L=z.length;Y<L;Y++)z[Y]!==O[Y]&&(i.disableVertexAttribArray(Y),z[Y]=0)}function I(O,z,Y,L,$,j,H){H===!0?i.vertexAttribIPointer(O,z,Y,$,j):i.vertexAttribPointer(O,z,Y,L,$,j)}function A(O,z,Y,L){S();let $=L.attributes,j=Y.getAttributes(),H=z.defaultAttributeValues;for(let rt in j){let X=j[rt];if(X.location>=0){let tt=$[rt];if(tt===void 0&&(rt==="instanceMatrix"&&O.instanceMatrix&&(tt=O.instanceMatrix),rt==="instanceColor"&&O.instanceColor&&(tt=O.instanceColor)),tt!==void 0){let et=tt.normalized,Et=tt.itemSize,Gt=t.get(tt);if(Gt===void 0)continue;let Z=Gt.buffer,yt=Gt.type,wt=Gt.bytesPerElement,Nt=yt===i.INT||yt===i.UNSIGNED_INT||tt.gpuType===El;if(tt.isInterleavedBufferAttribute){let Mt=tt.data,Ht=Mt.isInterleavedBuffer===!0?Mt.stride:Mt.itemSize,we=tt.offset;if(Mt.isInstancedInterleavedBuffer||Mt.isInstancedBufferAttribute){for(let Ot=0;Ot<X.locationSize;Ot++)_(X.location+Ot,Mt.meshPerAttribute);O.isInstancedMesh!==!0&&L._maxInstanceCount===void 0&&(L._maxInstanceCount=Mt.meshPerAttribute*Mt.count)}else for(let Ot=0;Ot<X.locationSize;Ot++)g(X.location+Ot);i.bindBuffer(i.ARRAY_BUFFER,Z);for(let Ot=0;Ot<X.locationSize;Ot++)I(X.location+Ot,Et/X.locationSize,yt,et,Ht*wt,(we+Et/X.locationSize*Ot)*wt,Nt)}else{if(tt.isInstancedBufferAttribute){for(let Mt=0;Mt<X.locationSize;Mt++)_(X.location+Mt,tt.meshPerAttribute);O.isInstancedMesh!==!0&&L._maxInstanceCount===void 0&&(L._maxInstanceCount=tt.meshPerAttribute*tt.count)}else for(let Mt=0;Mt<X.locationSize;Mt++)g(X.location+Mt);i.bindBuffer(i.ARRAY_BUFFER,Z);for(let Mt=0;Mt<X.locationSize;Mt++)I(X.location+Mt,Et/X.locationSize,yt,et,Et*wt,Et/X.locationSize*Mt*wt,Nt)}}else if(H!==void 0){let et=H[rt];if(et!==void 0)switch(et.length){case 2:i.vertexAttrib2fv(X.location,et);break;case 3:i.vertexAttrib3fv(X.location,et);break;case 4:i.vertexAttrib4fv(X.location,et);break;default:i.vertexAttrib1fv(X.location,et)}}}}b()}function C(){B();for(let O in n){let z=n[O];for(let Y in z){let L=z[Y];for(let $ in L){let j=L[$];for(let H in j)h(j[H].object),delete j[H];delete L[$]}}delete n[O]}}function E(O){if(n[O.id]===void 0)return;let z=n[O.id];for(let Y in z){let L=z[Y];for(let $ in L){let j=L[$];for(let H in j)h(j[H].object),delete j[H];delete L[$]}}delete n[O.id]}function y(O){for(let z in n){let Y=n[z];for(let L in Y){let $=Y[L];if($[O.id]===void 0)continue;let j=$[O.id];for(let H in j)h(j[H].object),delete j[H];delete $[O.id]}}}function T(O){for(let z in n){let Y=n[z],L=O.isInstancedMesh===!0?O.id:0,$=Y[L];if($!==void 0){for(let j in $){let H=$[j];for(let rt in H)h(H[rt].object),delete H[rt];delete $[j]}delete Y[L],Object.keys(Y).length===0&&delete n[z]}}}function B(){N(),o=!0,r!==s&&(r=s,c(r.object))}function N(){s.geometry=null,s.program=null,s.wireframe=!1}return{setup:a,reset:B,resetDefaultState:N,dispose:C,releaseStatesOfGeometry:E,releaseStatesOfObject:T,releaseStatesOfProgram:y,initAttributes:S,enableAttribute:g,disableUnusedAttributes:b}}function h1(i,t,e){let n;function s(l){n=l}function r(l,c){i.drawArrays(n,l,c),e.update(c,n,1)}function o(l,c,h){h!==0&&(i.drawArraysInstanced(n,l,c,h),e.update(c,n,h))}function a(l,c,h){if(h===0)return;t.get("WEBGL_multi_draw").multiDrawArraysWEBGL(n,l,0,c,0,h);let u=0;for(let f=0;f<h;f++)u+=c[f];e.update(u,n,1)}this.setMode=s,this.render=r,this.renderInstances=o,this.renderMultiDraw=a}function u1(i,t,e,n){let s;function r(){if(s!==void 0)return s;if(t.has("EXT_texture_filter_anisotropic")===!0){let y=t.get("EXT_texture_filter_anisotropic");s=i.getParameter(y.MAX_TEXTURE_MAX_ANISOTROPY_EXT)}else s=0;return s}function o(y){return!(y!==bn&&n.convert(y)!==i.getParameter(i.IMPLEMENTATION_COLOR_READ_FORMAT))}function a(y){let T=y===Qn&&(t.has("EXT_color_buffer_half_float")||t.has("EXT_color_buffer_float"));return!(y!==Sn&&y!==jn&&!T&&n.convert(y)!==i.getParameter(i.IMPLEMENTATION_COLOR_READ_TYPE))}function l(y){if(y==="highp"){if(i.getShaderPrecisionFormat(i.VERTEX_SHADER,i.HIGH_FLOAT).precision>0&&i.getShaderPrecisionFormat(i.FRAGMENT_SHADER,i.HIGH_FLOAT).precision>0)return"highp";y="mediump"}return y==="mediump"&&i.getShaderPrecisionFormat(i.VERTEX_SHADER,i.MEDIUM_FLOAT).precision>0&&i.getShaderPrecisionFormat(i.FRAGMENT_SHADER,i.MEDIUM_FLOAT).precision>0?"mediump":"lowp"}let c=e.precision!==void 0?e.precision:"highp",h=l(c);h!==c&&(Ut("WebGLRenderer:",c,"not supported, using",h,"instead."),c=h);let d=e.reversedDepthBuffer===!0&&t.has("EXT_clip_control"),u=e.logarithmicDepthBuffer===!0&&d===!1;e.reversedDepthBuffer===!0&&d===!1&&Ut("WebGLRenderer: Unable to use reversed depth buffer due to missing EXT_clip_control extension. Fallback to default depth buffer."),e.logarithmicDepthBuffer===!0&&d===!0&&Ut("WebGLRenderer: Logarithmic depth buffer is ignored when reversed depth buffer is enabled.");let f=i.getParameter(i.MAX_TEXTURE_IMAGE_UNITS),m=i.getParameter(i.MAX_VERTEX_TEXTURE_IMAGE_UNITS),S=i.getParameter(i.MAX_TEXTURE_SIZE),g=i.getParameter(i.MAX_CUBE_MAP_TEXTURE_SIZE),_=i.getParameter(i.MAX_VERTEX_ATTRIBS),b=i.getParameter(i.MAX_VERTEX_UNIFORM_VECTORS),I=i.getParameter(i.MAX_VARYING_VECTORS),A=i.getParameter(i.MAX_FRAGMENT_UNIFORM_VECTORS),C=i.getParameter(i.MAX_SAMPLES),E=i.getParameter(i.SAMPLES);return{isWebGL2:!0,getMaxAnisotropy:r,getMaxPrecision:l,textureFormatReadable:o,textureTypeReadable:a,precision:c,logarithmicDepthBuffer:u,reversedDepthBuffer:d,maxTextures:f,maxVertexTextures:m,maxTextureSize:S,maxCubemapSize:g,maxAttributes:_,maxVertexUniforms:b,maxVaryings:I,maxFragmentUniforms:A,maxSamples:C,samples:E}}function d1(i){let t=this,e=null,n=0,s=!1,r=!1,o=new Jn,a=new Bt,l={value:null,needsUpdate:!1};this.uniform=l,this.numPlanes=0,this.numIntersection=0,this.init=function(d,u){let f=d.length!==0||u||n!==0||s;return s=u,n=d.length,f},this.beginShadows=function(){r=!0,h(null)},this.endShadows=function(){r=!1},this.setGlobalState=function(d,u){e=h(d,u,0)},this.setState=function(d,u,f){let m=d.clippingPlanes,S=d.clipIntersection,g=d.clipShadows,_=i.get(d);if(!s||m===null||m.length===0||r&&!g)r?h(null):c();else{let b=r?0:n,I=b*4,A=_.clippingState||null;l.value=A,A=h(m,u,I,f);for(let C=0;C!==I;++C)A[C]=e[C];_.clippingState=A,this.numIntersection=S?this.numPlanes:0,this.numPlanes+=b}};function c(){l.value!==e&&(l.value=e,l.needsUpdate=n>0),t.numPlanes=n,t.numIntersection=0}function h(d,u,f,m){let S=d!==null?d.length:0,g=null;if(S!==0){if(g=l.value,m!==!0||g===null){let _=f+S*4,b=u.matrixWorldInverse;a.getNormalMatrix(b),(g===null||g.length<_)&&(g=new Float32Array(_));for(let I=0,A=f;I!==S;++I,A+=4)o.copy(d[I]).applyMatrix4(b,a),o.normal.toArray(g,A),g[A+3]=o.constant}l.value=g,l.needsUpdate=!0}return t.numPlanes=S,t.numIntersection=0,g}}var vo=class extends vn{constructor(t=1,e={}){super(t,t,e),this.isWebGLCubeRenderTarget=!0;let n={width:t,height:t,depth:1},s=[n,n,n,n,n,n];this.texture=new eo(s),this._setTextureOptions(e),this.texture.isRenderTargetTexture=!0}fromEquirectangularTexture(t,e){this.texture.type=e.type,this.texture.colorSpace=e.colorSpace,this.texture.generateMipmaps=e.generateMipmaps,this.texture.minFilter=e.minFilter,this.texture.magFilter=e.magFilter;let n={uniforms:{tEquirect:{value:null}},vertexShader:`

				varying vec3 vWorldDirection;

				vec3 transformDirection( in vec3 dir, in mat4 matrix ) {

					return normalize( ( matrix * vec4( dir, 0.0 ) ).xyz );

				}

				void main() {

					vWorldDirection = transformDirection( position, modelMatrix );

					#include <begin_vertex>
					#include <project_vertex>

				}
			`,fragmentShader:`

				uniform sampler2D tEquirect;

				varying vec3 vWorldDirection;

				#include <common>

				void main() {

					vec3 direction = normalize( vWorldDirection );

					vec2 sampleUV = equirectUv( direction );

					gl_FragColor = texture2D( tEquirect, sampleUV );

				}
			`},s=new Zs(5,5,5),r=new ci({name:"CubemapFromEquirect",uniforms:ps(n.uniforms),vertexShader:n.vertexShader,fragmentShader:n.fragmentShader,side:ln,blending:hs});r.uniforms.tEquirect.value=e;let o=new kn(s,r),a=e.minFilter;return e.minFilter===Ci&&(e.minFilter=Ge),new Qs(1,10,this).update(t,o),e.minFilter=a,o.geometry.dispose(),o.material.dispose(),this}clear(t,e=!0,n=!0,s=!0){let r=t.getRenderTarget();for(let o=0;o<6;o++)t.setRenderTarget(this,o),t.clear(e,n,s);t.setRenderTarget(r)}},r_=256,f1=3,p1=20,C_=256,R_=16,m1=3,g1=new V,_1=new ee,uc=class i{constructor(t){this._renderer=t,this._cubeSize=0,this._sourceTarget=null,this._cubeCamera=new Qs(1,10,null),this._boxMesh=new kn(new Zs(5,5,5),null),this._cubemapMaterial=null,this._equirectMaterial=null,this._blurMaterial=null,this._ggxMaterial=null,this._integrationMaterial=null}fromScene(t,e=0,n=.1,s=100,r={}){let{size:o=256,position:a=g1}=r,l=this._renderer;this._setSize(o);let c=this._allocateTarget(),h=this._getSourceTarget(!0);e>0&&(h.texture.mipmapsAutoUpdate=!1);let d=l.autoClear,u=l.autoClearColor,f=l.autoClearDepth,m=l.autoClearStencil,S=t.background;l.autoClear=!0,l.autoClearColor=!0,l.autoClearDepth=!0,l.autoClearStencil=!0,S===null&&(t.background=l.getClearColor(_1));let g=new Qs(n,s,h);return g.position.copy(a),g.update(l,t),l.autoClear=d,l.autoClearColor=u,l.autoClearDepth=f,l.autoClearStencil=m,t.background=S,e>0&&(h.texture.mipmapsAutoUpdate=!0,this._blur(c,e)),this._applyPMREM(c),c}fromEquirectangular(t,e=null){return this._fromTexture(t,e)}fromCubemap(t,e=null){return this._fromTexture(t,e)}compileCubemapShader(){this._cubemapMaterial===null&&(this._cubemapMaterial=l_(),this._compileMaterial(this._cubemapMaterial))}compileEquirectangularShader(){this._equirectMaterial===null&&(this._equirectMaterial=a_(),this._compileMaterial(this._equirectMaterial))}dispose(){this._sourceTarget!==null&&this._sourceTarget.dispose(),this._cubemapMaterial!==null&&this._cubemapMaterial.dispose(),this._equirectMaterial!==null&&this._equirectMaterial.dispose(),this._blurMaterial!==null&&this._blurMaterial.dispose(),this._ggxMaterial!==null&&this._ggxMaterial.dispose(),this._integrationMaterial!==null&&this._integrationMaterial.dispose(),this._boxMesh.geometry.dispose()}static lodToRoughness(t,e){return e>0?1-Math.sqrt(1-t/e):0}_setSize(t){this._cubeSize=Math.max(r_,t_(t))}_fromTexture(t,e){t.mapping===ds||t.mapping===nr?this._setSize(t.image.length===0?r_:t.image[0].width||t.image[0].image.width):this._setSize(t.image.width/4);let n=e||this._allocateTarget();return this._textureToCubemap(t),this._applyPMREM(n),n}_allocateTarget(){let t=this._cubeSize,e=o_(t,!1,!1),n=Math.log2(t)-f1;for(let s=0;s<=n;s++)e.texture.mipmaps.push({width:t>>s,height:t>>s});return e.texture.name="PMREM",e.texture.isPMREMTexture=!0,e}_getSourceTarget(t=!1){let e=this._cubeSize,n=this._sourceTarget;return(n===null||n.width!==e||t&&n.depthBuffer===!1)&&(n!==null&&n.dispose(),this._sourceTarget=o_(e,!0,t)),this._sourceTarget}_compileMaterial(t){this._boxMesh.material=t,this._renderer.compile(this._boxMesh,this._cubeCamera.children[0])}_renderCube(t,e,n){let s=this._boxMesh,r=this._cubeCamera;s.material=n,r.renderTarget=t,r.activeMipmapLevel=e;let o=t.width>>e;t.viewport.set(0,0,o,o),r.update(this._renderer,s),t.viewport.set(0,0,t.width,t.height)}_textureToCubemap(t){let e;t.mapping===ds||t.mapping===nr?(this._cubemapMaterial===null&&(this._cubemapMaterial=l_()),e=this._cubemapMaterial,e.uniforms.flipEnvMap.value=t.isRenderTargetTexture===!1?-1:1):(this._equirectMaterial===null&&(this._equirectMaterial=a_()),e=this._equirectMaterial),e.uniforms.envMap.value=t,this._renderCube(this._getSourceTarget(),0,e)}_applyPMREM(t){this._ggxMaterial===null&&(this._ggxMaterial=x1(),this._integrationMaterial=y1());let e=this._cubeSize,n=t.texture.mipmaps.length-1,s=this._ggxMaterial.uniforms;s.envMap.value=this._sourceTarget.texture;let r=this._integrationMaterial.uniforms;r.envMap.value=this._sourceTarget.texture,r.sourceLod.value=Math.log2(e/R_);for(let o=0;o<=n;o++){let a=i.lodToRoughness(o,n);if(o>n-m1)r.roughness.value=a,this._renderCube(t,o,this._integrationMaterial);else{let l=a>0?Math.log2(e)+.5*Math.log2(6/(C_*Math.pow(a,4)))+.5:0;s.roughness.value=a,s.lodBias.value=l,this._renderCube(t,o,this._ggxMaterial)}}}_blur(t,e){this._blurMaterial===null&&(this._blurMaterial=v1());let n=this._blurMaterial,s=n.uniforms,r=this._sourceTarget;s.sigma.value=Math.min(e,Math.PI)/Math.SQRT2,s.envMap.value=r.texture,this._renderCube(t,0,n),s.envMap.value=t.texture,this._renderCube(r,0,n)}};function o_(i,t,e){return new vo(i,{minFilter:Ci,generateMipmaps:t,type:Qn,colorSpace:$r,depthBuffer:e})}function Mo(i,t,e){return new ci({name:i,uniforms:t,vertexShader:$t.cube_vert,fragmentShader:e,side:ln,blending:hs,depthTest:!1,depthWrite:!1})}function x1(){return Mo("PMREMGGXConvolution",{envMap:{value:null},roughness:{value:0},lodBias:{value:0}},`

		#define GGX_SAMPLES ${C_}u

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float lodBias;

		#include <common>

		// Van der Corput radical inverse
		float radicalInverse_VdC( uint bits ) {

			bits = ( bits << 16u ) | ( bits >> 16u );
			bits = ( ( bits & 0x55555555u ) << 1u ) | ( ( bits & 0xAAAAAAAAu ) >> 1u );
			bits = ( ( bits & 0x33333333u ) << 2u ) | ( ( bits & 0xCCCCCCCCu ) >> 2u );
			bits = ( ( bits & 0x0F0F0F0Fu ) << 4u ) | ( ( bits & 0xF0F0F0F0u ) >> 4u );
			bits = ( ( bits & 0x00FF00FFu ) << 8u ) | ( ( bits & 0xFF00FF00u ) >> 8u );
			return float( bits ) * 2.3283064365386963e-10; // / 0x100000000

		}

		// Hammersley sequence
		vec2 hammersley( uint i, uint N ) {

			return vec2( float( i ) / float( N ), radicalInverse_VdC( i ) );

		}

		void main() {

			vec3 N = normalize( vWorldDirection );

			// For very low roughness, just sample the environment directly
			if ( roughness < 0.001 ) {

				gl_FragColor = vec4( textureLod( envMap, N, 0.0 ).rgb, 1.0 );
				return;

			}

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			// Tangent space basis for VNDF sampling
			vec3 up = abs( N.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, N ) );
			vec3 bitangent = cross( N, tangent );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			for ( uint i = 0u; i < GGX_SAMPLES; i ++ ) {

				vec2 Xi = hammersley( i, GGX_SAMPLES );

				// With V = N, sample the reflected direction directly.
				float invQ = 1.0 / ( 1.0 - Xi.x + alpha2 * Xi.x );
				float NdotL = ( 1.0 - Xi.x - alpha2 * Xi.x ) * invQ;

				if ( NdotL > 0.0 ) {

					float phi = 2.0 * PI * Xi.y;
					float sinTheta = 2.0 * alpha * sqrt( Xi.x * ( 1.0 - Xi.x ) ) * invQ;
					vec3 L = N * NdotL + ( tangent * cos( phi ) + bitangent * sin( phi ) ) * sinTheta;

					// Match the source mip to the sample's solid angle. The terms
					// independent of the sample are precomputed in lodBias.
					float d = alpha2 * invQ;
					float lod = max( log2( d ) + lodBias, 0.0 );

					// Weight by NdotL for the split-sum approximation
					prefilteredColor += textureLod( envMap, L, lod ).rgb * NdotL;
					totalWeight += NdotL;

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function y1(){return Mo("PMREMGGXIntegration",{envMap:{value:null},roughness:{value:0},sourceLod:{value:0},sourceSize:{value:R_}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float roughness;
		uniform float sourceLod;
		uniform int sourceSize;

		void main() {

			vec3 N = normalize( vWorldDirection );

			float alpha = roughness * roughness;
			float alpha2 = alpha * alpha;

			float texelSize = 2.0 / float( sourceSize );

			vec3 prefilteredColor = vec3( 0.0 );
			float totalWeight = 0.0;

			// Pair opposite texels: only the one in N's hemisphere contributes.
			for ( int face = 0; face < 3; face ++ ) {

				for ( int y = 0; y < sourceSize; y ++ ) {

					for ( int x = 0; x < sourceSize; x ++ ) {

						vec2 uv = ( vec2( x, y ) + 0.5 ) * texelSize - 1.0;
						vec3 texelDirection = face == 0 ? vec3( 1.0, uv ) : ( face == 1 ? vec3( uv.x, 1.0, uv.y ) : vec3( uv, 1.0 ) );

						float invDistance = inversesqrt( 1.0 + dot( uv, uv ) );
						float NdotL = dot( N, texelDirection );
						texelDirection *= NdotL < 0.0 ? - 1.0 : 1.0;
						NdotL = abs( NdotL ) * invDistance;

						// With V = N, NdotH squared is ( 1 + NdotL ) / 2. Common factors
						// in the GGX distribution and texel solid angle cancel when normalized.
						float d = 1.0 + alpha2 + ( alpha2 - 1.0 ) * NdotL;
						float weight = NdotL * invDistance * invDistance * invDistance / ( d * d );

						prefilteredColor += textureLod( envMap, texelDirection, sourceLod ).rgb * weight;
						totalWeight += weight;

					}

				}

			}

			gl_FragColor = vec4( prefilteredColor / totalWeight, 1.0 );

		}
	`)}function v1(){return Mo("PMREMSphericalGaussianBlur",{envMap:{value:null},sigma:{value:0}},`

		#define SAMPLES ${p1}
		#define GOLDEN_ANGLE 2.39996322973

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float sigma;

		#include <common>

		void main() {

			vec3 outputDirection = normalize( vWorldDirection );

			vec3 up = abs( outputDirection.z ) < 0.999 ? vec3( 0.0, 0.0, 1.0 ) : vec3( 1.0, 0.0, 0.0 );
			vec3 tangent = normalize( cross( up, outputDirection ) );
			vec3 bitangent = cross( outputDirection, tangent );

			// Truncate the kernel at three standard deviations or at the antipode.
			float thetaMax = min( 3.0 * sigma, PI );
			float truncation = 1.0 - exp( - 0.5 * thetaMax * thetaMax / ( sigma * sigma ) );

			vec3 accumColor = vec3( 0.0 );
			float accumWeight = 0.0;

			for ( int i = 0; i < SAMPLES; i ++ ) {

				// Stratified inverse-CDF sampling of the Gaussian, placed on a golden-angle spiral.
				float stratum = ( float( i ) + 0.5 ) / float( SAMPLES );
				float theta = sigma * sqrt( - 2.0 * log( 1.0 - stratum * truncation ) );
				float phi = float( i ) * GOLDEN_ANGLE;

				vec3 offset = cos( phi ) * tangent + sin( phi ) * bitangent;
				vec3 sampleDirection = cos( theta ) * outputDirection + sin( theta ) * offset;

				// Correct the planar sample density to solid angle.
				float weight = sin( theta ) / theta;

				accumColor += weight * textureLod( envMap, sampleDirection, 0.0 ).rgb;
				accumWeight += weight;

			}

			gl_FragColor = vec4( accumColor / accumWeight, 1.0 );

		}
	`)}function a_(){return Mo("PMREMEquirectangularToCubemap",{envMap:{value:null}},`

		varying vec3 vWorldDirection;

		uniform sampler2D envMap;

		#include <common>

		void main() {

			// Average four subpixel samples to preserve small, bright features.
			vec3 direction = normalize( vWorldDirection );
			vec3 dx = dFdx( direction ) * 0.25;
			vec3 dy = dFdy( direction ) * 0.25;

			vec3 color = textureLod( envMap, equirectUv( normalize( direction - dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx - dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction - dx + dy ) ), 0.0 ).rgb;
			color += textureLod( envMap, equirectUv( normalize( direction + dx + dy ) ), 0.0 ).rgb;
			gl_FragColor = vec4( color * 0.25, 1.0 );

		}
	`)}function l_(){return Mo("PMREMCubemapToCubemap",{envMap:{value:null},flipEnvMap:{value:-1}},`

		varying vec3 vWorldDirection;

		uniform samplerCube envMap;
		uniform float flipEnvMap;

		void main() {

			gl_FragColor = vec4( textureCube( envMap, vec3( flipEnvMap * vWorldDirection.x, vWorldDirection.yz ) ).rgb, 1.0 );

		}
	`)}function M1(i){let t=new WeakMap,e=new WeakMap,n=null;function s(u,f=!1){return u==null?null:f?o(u):r(u)}function r(u){if(u&&u.isTexture){let f=u.mapping;if(f===wl||f===Tl)if(t.has(u)){let m=t.get(u).texture;return a(m,u.mapping)}else{let m=u.image;if(m&&m.height>0){let S=new vo(m.height);return S.fromEquirectangularTexture(i,u),t.set(u,S),u.addEventListener("dispose",c),a(S.texture,u.mapping)}else return null}}return u}function o(u){if(u&&u.isTexture&&u.isPMREMTexture!==!0){let f=u.mapping,m=f===wl||f===Tl,S=f===ds||f===nr;if(m||S){let g=e.get(u),_=g!==void 0?g.texture.pmremVersion:0;if(u.isRenderTargetTexture&&u.pmremVersion!==_)return n===null&&(n=new uc(i)),g=m?n.fromEquirectangular(u,g):n.fromCubemap(u,g),g.texture.pmremVersion=u.pmremVersion,e.set(u,g),g.texture;if(g!==void 0)return g.texture;{let b=u.image;return m&&b&&b.height>0||S&&b&&l(b)?(n===null&&(n=new uc(i)),g=m?n.fromEquirectangular(u):n.fromCubemap(u),g.texture.pmremVersion=u.pmremVersion,e.set(u,g),u.addEventListener("dispose",h),g.texture):null}}}return u}function a(u,f){return f===wl?u.mapping=ds:f===Tl&&(u.mapping=nr),u}function l(u){let f=0,m=6;for(let S=0;S<m;S++)u[S]!==void 0&&f++;return f===m}function c(u){let f=u.target;f.removeEventListener("dispose",c);let m=t.get(f);m!==void 0&&(t.delete(f),m.dispose())}function h(u){let f=u.target;f.removeEventListener("dispose",h);let m=e.get(f);m!==void 0&&(e.delete(f),m.dispose())}function d(){t=new WeakMap,e=new WeakMap,n!==null&&(n.dispose(),n=null)}return{get:s,dispose:d}}function S1(i){let t={};function e(n){if(t[n]!==void 0)return t[n];let s=i.getExtension(n);return t[n]=s,s}return{has:function(n){return e(n)!==null},init:function(){e("EXT_color_buffer_float"),e("WEBGL_clip_cull_distance"),e("OES_texture_float_linear"),e("EXT_color_buffer_half_float"),e("WEBGL_multisampled_render_to_texture"),e("WEBGL_render_shared_exponent")},get:function(n){let s=e(n);return s===null&&Wr("WebGLRenderer: "+n+" extension not supported."),s}}}function b1(i,t,e,n){let s={},r=new WeakMap,o=new FinalizationRegistry(m=>delete s[m]);function a(m){l(m.target)}function l(m){m.index!==null&&t.remove(m.index);for(let g in m.attributes)t.remove(m.attributes[g]);m.removeEventListener("dispose",a),delete s[m.id],o.unregister(m);let S=r.get(m);S&&(t.remove(S),r.delete(m)),n.releaseStatesOfGeometry(m),m.isInstancedBufferGeometry===!0&&delete m._maxInstanceCount,e.memory.geometries--}function c(m,S){return s[S.id]!==void 0||(S.addEventListener("dispose",a),s[S.id]=new WeakRef(S),o.register(S,S.id,S),e.memory.geometries++),S}function h(m){let S=m.attributes;for(let g in S)t.update(S[g],i.ARRAY_BUFFER)}function d(m){let S=m.index,g=m.attributes.position,_=0;if(g===void 0)return;let b=S!==null?S.array.length:g.array.length/3-1,I=g.count>=65535?to:Qr,A=new I(Math.ceil(b/3)*6,1),C=A.array;if(S!==null){let y=S.array;_=S.version;for(let T=0,B=0;T<b;T+=3){let N=y[T+0],O=y[T+1],z=y[T+2];C[B++]=N,C[B++]=O,C[B++]=O,C[B++]=z,C[B++]=z,C[B++]=N}}else{_=g.version;for(let y=0,T=0;y<b;y+=3){let B=y+0,N=y+1,O=y+2;C[T++]=B,C[T++]=N,C[T++]=N,C[T++]=O,C[T++]=O,C[T++]=B}}A.version=_;let E=r.get(m);E&&t.remove(E),r.set(m,A)}function u(m){let S=r.get(m);if(S){let g=m.index;g!==null&&S.version<g.version&&d(m)}else d(m);return r.get(m)}function f(){for(let m in s){let S=s[m].deref();S!==void 0&&l(S)}}return{get:c,update:h,getWireframeAttribute:u,dispose:f}}function w1(i,t,e){let n;function s(d){n=d}let r,o;function a(d){r=d.type,o=d.bytesPerElement}function l(d,u){i.drawElements(n,u,r,d*o),e.update(u,n,1)}function c(d,u,f){f!==0&&(i.drawElementsInstanced(n,u,r,d*o,f),e.update(u,n,f))}function h(d,u,f){if(f===0)return;t.get("WEBGL_multi_draw").multiDrawElementsWEBGL(n,u,0,r,d,0,f);let S=0;for(let g=0;g<f;g++)S+=u[g];e.update(S,n,1)}this.setMode=s,this.setIndex=a,this.render=l,this.renderInstances=c,this.renderMultiDraw=h}function T1(i){let t={geometries:0,textures:0},e={frame:0,calls:0,triangles:0,points:0,lines:0};function n(r,o,a){switch(e.calls++,o){case i.TRIANGLES:e.triangles+=a*(r/3);break;case i.LINES:e.lines+=a*(r/2);break;case i.LINE_STRIP:e.lines+=a*(r-1);break;case i.LINE_LOOP:e.lines+=a*r;break;case i.POINTS:e.points+=a*r;break;default:Ft("WebGLInfo: Unknown draw mode:",o);break}}function s(){e.calls=0,e.triangles=0,e.points=0,e.lines=0}return{memory:t,render:e,programs:null,autoReset:!0,reset:s,update:n}}function A1(i,t,e){let n=new WeakMap,s=new xe;function r(o,a,l){let c=o.morphTargetInfluences,h=a.morphAttributes.position||a.morphAttributes.normal||a.morphAttributes.color,d=h!==void 0?h.length:0,u=n.get(a);if(u===void 0||u.count!==d){let B=function(){y.dispose(),n.delete(a),a.removeEventListener("dispose",B)};u!==void 0&&u.texture.dispose();let f=a.morphAttributes.position!==void 0,m=a.morphAttributes.normal!==void 0,S=a.morphAttributes.color!==void 0,g=a.morphAttributes.position||[],_=a.morphAttributes.normal||[],b=a.morphAttributes.color||[],I=0;f===!0&&(I=1),m===!0&&(I=2),S===!0&&(I=3);let A=a.attributes.position.count*I,C=1;A>t.maxTextureSize&&(C=Math.ceil(A/t.maxTextureSize),A=t.maxTextureSize);let E=new Float32Array(A*C*4*d),y=new Zr(E,A,C,d);y.type=jn,y.needsUpdate=!0;let T=I*4;for(let N=0;N<d;N++){let O=g[N],z=_[N],Y=b[N],L=A*C*4*N;for(let $=0;$<O.count;$++){let j=$*T;f===!0&&(s.fromBufferAttribute(O,$),E[L+j+0]=s.x,E[L+j+1]=s.y,E[L+j+2]=s.z,E[L+j+3]=0),m===!0&&(s.fromBufferAttribute(z,$),E[L+j+4]=s.x,E[L+j+5]=s.y,E[L+j+6]=s.z,E[L+j+7]=0),S===!0&&(s.fromBufferAttribute(Y,$),E[L+j+8]=s.x,E[L+j+9]=s.y,E[L+j+10]=s.z,E[L+j+11]=Y.itemSize===4?s.w:1)}}u={count:d,texture:y,size:new ne(A,C)},n.set(a,u),a.addEventListener("dispose",B)}if(o.isInstancedMesh===!0&&o.morphTexture!==null)l.getUniforms().setValue(i,"morphTexture",o.morphTexture,e);else{let f=0;for(let S=0;S<c.length;S++)f+=c[S];let m=a.morphTargetsRelative?1:1-f;l.getUniforms().setValue(i,"morphTargetBaseInfluence",m),l.getUniforms().setValue(i,"morphTargetInfluences",c)}l.getUniforms().setValue(i,"morphTargetsTexture",u.texture,e),l.getUniforms().setValue(i,"morphTargetsTextureSize",u.size)}return{update:r}}function E1(i,t,e,n,s){let r=new WeakMap;function o(c){let h=s.render.frame,d=c.geometry,u=t.get(c,d);if(r.get(u)!==h&&(t.update(u),r.set(u,h)),c.isInstancedMesh&&(c.hasEventListener("dispose",l)===!1&&c.addEventListener("dispose",l),r.get(c)!==h&&(e.update(c.instanceMatrix,i.ARRAY_BUFFER),c.instanceColor!==null&&e.update(c.instanceColor,i.ARRAY_BUFFER),r.set(c,h))),c.isSkinnedMesh){let f=c.skeleton;r.get(f)!==h&&(f.update(),r.set(f,h))}return u}function a(){r=new WeakMap}function l(c){let h=c.target;h.removeEventListener("dispose",l),n.releaseStatesOfObject(h),e.remove(h.instanceMatrix),h.instanceColor!==null&&e.remove(h.instanceColor)}return{update:o,dispose:a}}var C1={[Gu]:"LINEAR_TONE_MAPPING",[Vu]:"REINHARD_TONE_MAPPING",[Hu]:"CINEON_TONE_MAPPING",[Wu]:"ACES_FILMIC_TONE_MAPPING",[$u]:"AGX_TONE_MAPPING",[qu]:"NEUTRAL_TONE_MAPPING",[Xu]:"CUSTOM_TONE_MAPPING"};function R1(i,t,e,n,s,r){let o=new vn(t,e,{type:i,depthBuffer:s,stencilBuffer:r,samples:n?4:0,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,resolveDepthBuffer:!1,resolveStencilBuffer:!1}),a=null,l=null,c=null,h=new Zn;h.setAttribute("position",new Un([-1,3,0,-1,-1,0,3,-1,0],3)),h.setAttribute("uv",new Un([0,2,0,0,2,0],2));let d=new Ks({uniforms:{tDiffuse:{value:null}},vertexShader:`
			precision highp float;

			uniform mat4 modelViewMatrix;
			uniform mat4 projectionMatrix;

			attribute vec3 position;
			attribute vec2 uv;

			varying vec2 vUv;

			void main() {
				vUv = uv;
				gl_Position = projectionMatrix * modelViewMatrix * vec4( position, 1.0 );
			}`,fragmentShader:`
			precision highp float;

			uniform sampler2D tDiffuse;

			varying vec2 vUv;

			#include <tonemapping_pars_fragment>
			#include <colorspace_pars_fragment>

			void main() {
				gl_FragColor = texture2D( tDiffuse, vUv );

				#ifdef LINEAR_TONE_MAPPING
					gl_FragColor.rgb = LinearToneMapping( gl_FragColor.rgb );
				#elif defined( REINHARD_TONE_MAPPING )
					gl_FragColor.rgb = ReinhardToneMapping( gl_FragColor.rgb );
				#elif defined( CINEON_TONE_MAPPING )
					gl_FragColor.rgb = CineonToneMapping( gl_FragColor.rgb );
				#elif defined( ACES_FILMIC_TONE_MAPPING )
					gl_FragColor.rgb = ACESFilmicToneMapping( gl_FragColor.rgb );
				#elif defined( AGX_TONE_MAPPING )
					gl_FragColor.rgb = AgXToneMapping( gl_FragColor.rgb );
				#elif defined( NEUTRAL_TONE_MAPPING )
					gl_FragColor.rgb = NeutralToneMapping( gl_FragColor.rgb );
				#elif defined( CUSTOM_TONE_MAPPING )
					gl_FragColor.rgb = CustomToneMapping( gl_FragColor.rgb );
				#endif

				#ifdef SRGB_TRANSFER
					gl_FragColor = sRGBTransferOETF( gl_FragColor );
				#endif
			}`,depthTest:!1,depthWrite:!1}),u=new kn(h,d),f=new js(-1,1,1,-1,0,1),m=null,S=null,g=!1,_,b=null,I=[],A=!1;this.setSize=function(C,E){o.setSize(C,E),a!==null&&a.setSize(C,E),l!==null&&l.setSize(C,E);for(let y=0;y<I.length;y++){let T=I[y];T.setSize&&T.setSize(C,E)}},this.setEffects=function(C){I=C,A=I.length>0&&I[0].isRenderPass===!0;let E=o.width,y=o.height;I.length>0&&a===null&&(a=new vn(E,y,{type:Qn,depthBuffer:!1,stencilBuffer:!1}),l=new vn(E,y,{type:Qn,depthBuffer:!1,stencilBuffer:!1}));let T=s===!0&&I.some(B=>B.needsDepthTexture===!0);T!==(o.depthTexture!==null)&&(T===!0&&c===null&&(c=new Ei(E,y),r===!0&&(c.format=Ri,c.type=fs)),o.dispose(),o.depthTexture=T?c:null,o.resolveDepthBuffer=T,o.storeMultisampledDepthBuffer=T);for(let B=0;B<I.length;B++){let N=I[B];N.setSize&&N.setSize(E,y),T&&N.needsDepthTexture===!0&&N.setDepthTexture&&N.setDepthTexture(c)}},this.begin=function(C,E){if(g||C.toneMapping===ui&&I.length===0)return!1;if(b=E,E!==null){let y=E.width,T=E.height;(o.width!==y||o.height!==T)&&this.setSize(y,T)}return A===!1&&C.setRenderTarget(o),_=C.toneMapping,C.toneMapping=ui,!0},this.hasRenderPass=function(){return A},this.end=function(C,E){C.toneMapping=_,g=!0;let y=o,T=a;for(let B=0;B<I.length;B++){let N=I[B];N.enabled!==!1&&(N.render(C,T,y,E),N.needsSwap!==!1&&(y=T,T=T===a?l:a))}if(m!==C.outputColorSpace||S!==C.toneMapping){m=C.outputColorSpace,S=C.toneMapping,d.defines={},Kt.getTransfer(m)===se&&(d.defines.SRGB_TRANSFER="");let B=C1[S];B&&(d.defines[B]=""),d.needsUpdate=!0}d.uniforms.tDiffuse.value=y.texture,C.setRenderTarget(b),C.render(u,f),b=null,g=!1},this.isCompositing=function(){return g},this.dispose=function(){o.dispose(),a!==null&&a.dispose(),l!==null&&l.dispose(),h.dispose(),d.dispose()}}var I_=new dn,P_=new Ei(1,1),L_=new no(1),N_=new Zr,D_=new ol,O_=new eo,c_=[],h_=[],u_=new Float32Array(16),d_=new Float32Array(9),f_=new Float32Array(4);function rr(i,t,e){let n=i[0];if(n<=0||n>0)return i;let s=t*e,r=c_[s];if(r===void 0&&(r=new Float32Array(s),c_[s]=r),t!==0){n.toArray(r,0);for(let o=1,a=0;o!==t;++o)a+=e,i[o].toArray(r,a)}return r}function Ne(i,t){if(i.length!==t.length)return!1;for(let e=0,n=i.length;e<n;e++)if(i[e]!==t[e])return!1;return!0}function De(i,t){for(let e=0,n=t.length;e<n;e++)i[e]=t[e]}function fc(i,t){let e=h_[t];e===void 0&&(e=new Int32Array(t),h_[t]=e);for(let n=0;n!==t;++n)e[n]=i.allocateTextureUnit();return e}function I1(i,t){let e=this.cache;e[0]!==t&&(i.uniform1f(this.addr,t),e[0]=t)}function P1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2f(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ne(e,t))return;i.uniform2fv(this.addr,t),De(e,t)}}function L1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3f(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else if(t.r!==void 0)(e[0]!==t.r||e[1]!==t.g||e[2]!==t.b)&&(i.uniform3f(this.addr,t.r,t.g,t.b),e[0]=t.r,e[1]=t.g,e[2]=t.b);else{if(Ne(e,t))return;i.uniform3fv(this.addr,t),De(e,t)}}function N1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4f(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ne(e,t))return;i.uniform4fv(this.addr,t),De(e,t)}}function D1(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ne(e,t))return;i.uniformMatrix2fv(this.addr,!1,t),De(e,t)}else{if(Ne(e,n))return;f_.set(n),i.uniformMatrix2fv(this.addr,!1,f_),De(e,n)}}function O1(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ne(e,t))return;i.uniformMatrix3fv(this.addr,!1,t),De(e,t)}else{if(Ne(e,n))return;d_.set(n),i.uniformMatrix3fv(this.addr,!1,d_),De(e,n)}}function U1(i,t){let e=this.cache,n=t.elements;if(n===void 0){if(Ne(e,t))return;i.uniformMatrix4fv(this.addr,!1,t),De(e,t)}else{if(Ne(e,n))return;u_.set(n),i.uniformMatrix4fv(this.addr,!1,u_),De(e,n)}}function F1(i,t){let e=this.cache;e[0]!==t&&(i.uniform1i(this.addr,t),e[0]=t)}function k1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2i(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ne(e,t))return;i.uniform2iv(this.addr,t),De(e,t)}}function B1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3i(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else{if(Ne(e,t))return;i.uniform3iv(this.addr,t),De(e,t)}}function z1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4i(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ne(e,t))return;i.uniform4iv(this.addr,t),De(e,t)}}function G1(i,t){let e=this.cache;e[0]!==t&&(i.uniform1ui(this.addr,t),e[0]=t)}function V1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y)&&(i.uniform2ui(this.addr,t.x,t.y),e[0]=t.x,e[1]=t.y);else{if(Ne(e,t))return;i.uniform2uiv(this.addr,t),De(e,t)}}function H1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z)&&(i.uniform3ui(this.addr,t.x,t.y,t.z),e[0]=t.x,e[1]=t.y,e[2]=t.z);else{if(Ne(e,t))return;i.uniform3uiv(this.addr,t),De(e,t)}}function W1(i,t){let e=this.cache;if(t.x!==void 0)(e[0]!==t.x||e[1]!==t.y||e[2]!==t.z||e[3]!==t.w)&&(i.uniform4ui(this.addr,t.x,t.y,t.z,t.w),e[0]=t.x,e[1]=t.y,e[2]=t.z,e[3]=t.w);else{if(Ne(e,t))return;i.uniform4uiv(this.addr,t),De(e,t)}}function pc(i){return i.version===0&&(i.compareFunction=rd,i.needsUpdate=!0),i}function X1(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s);let r;this.type===i.SAMPLER_2D_SHADOW?r=pc(P_):r=I_,e.setTexture2D(t||r,s)}function $1(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s),e.setTexture3D(t||D_,s)}function q1(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s);let r;this.type===i.SAMPLER_CUBE_SHADOW?r=pc(L_):r=O_,e.setTextureCube(t||r,s)}function Y1(i,t,e){let n=this.cache,s=e.allocateTextureUnit();n[0]!==s&&(i.uniform1i(this.addr,s),n[0]=s),e.setTexture2DArray(t||N_,s)}function J1(i){switch(i){case 5126:return I1;case 35664:return P1;case 35665:return L1;case 35666:return N1;case 35674:return D1;case 35675:return O1;case 35676:return U1;case 5124:case 35670:return F1;case 35667:case 35671:return k1;case 35668:case 35672:return B1;case 35669:case 35673:return z1;case 5125:return G1;case 36294:return V1;case 36295:return H1;case 36296:return W1;case 35678:case 36198:case 36298:case 36306:case 35682:return X1;case 35679:case 36299:case 36307:return $1;case 35680:case 36300:case 36308:case 36293:return q1;case 36289:case 36303:case 36311:case 36292:return Y1}}function Z1(i,t){i.uniform1fv(this.addr,t)}function K1(i,t){let e=rr(t,this.size,2);i.uniform2fv(this.addr,e)}function j1(i,t){let e=rr(t,this.size,3);i.uniform3fv(this.addr,e)}function Q1(i,t){let e=rr(t,this.size,4);i.uniform4fv(this.addr,e)}function tT(i,t){let e=rr(t,this.size,4);i.uniformMatrix2fv(this.addr,!1,e)}function eT(i,t){let e=rr(t,this.size,9);i.uniformMatrix3fv(this.addr,!1,e)}function nT(i,t){let e=rr(t,this.size,16);i.uniformMatrix4fv(this.addr,!1,e)}function iT(i,t){i.uniform1iv(this.addr,t)}function sT(i,t){i.uniform2iv(this.addr,t)}function rT(i,t){i.uniform3iv(this.addr,t)}function oT(i,t){i.uniform4iv(this.addr,t)}function aT(i,t){i.uniform1uiv(this.addr,t)}function lT(i,t){i.uniform2uiv(this.addr,t)}function cT(i,t){i.uniform3uiv(this.addr,t)}function hT(i,t){i.uniform4uiv(this.addr,t)}function uT(i,t,e){let n=this.cache,s=t.length,r=fc(e,s);Ne(n,r)||(i.uniform1iv(this.addr,r),De(n,r));let o;this.type===i.SAMPLER_2D_SHADOW?o=pc(P_):o=I_;for(let a=0;a!==s;++a)e.setTexture2D(t[a]||o,r[a])}function dT(i,t,e){let n=this.cache,s=t.length,r=fc(e,s);Ne(n,r)||(i.uniform1iv(this.addr,r),De(n,r));for(let o=0;o!==s;++o)e.setTexture3D(t[o]||D_,r[o])}function fT(i,t,e){let n=this.cache,s=t.length,r=fc(e,s);Ne(n,r)||(i.uniform1iv(this.addr,r),De(n,r));let o;this.type===i.SAMPLER_CUBE_SHADOW?o=pc(L_):o=O_;for(let a=0;a!==s;++a)e.setTextureCube(t[a]||o,r[a])}function pT(i,t,e){let n=this.cache,s=t.length,r=fc(e,s);Ne(n,r)||(i.uniform1iv(this.addr,r),De(n,r));for(let o=0;o!==s;++o)e.setTexture2DArray(t[o]||N_,r[o])}function mT(i){switch(i){case 5126:return Z1;case 35664:return K1;case 35665:return j1;case 35666:return Q1;case 35674:return tT;case 35675:return eT;case 35676:return nT;case 5124:case 35670:return iT;case 35667:case 35671:return sT;case 35668:case 35672:return rT;case 35669:case 35673:return oT;case 5125:return aT;case 36294:return lT;case 36295:return cT;case 36296:return hT;case 35678:case 36198:case 36298:case 36306:case 35682:return uT;case 35679:case 36299:case 36307:return dT;case 35680:case 36300:case 36308:case 36293:return fT;case 36289:case 36303:case 36311:case 36292:return pT}}var yd=class{constructor(t,e,n){this.id=t,this.addr=n,this.cache=[],this.type=e.type,this.setValue=J1(e.type)}},vd=class{constructor(t,e,n){this.id=t,this.addr=n,this.cache=[],this.type=e.type,this.size=e.size,this.setValue=mT(e.type)}},Md=class{constructor(t){this.id=t,this.seq=[],this.map={}}setValue(t,e,n){let s=this.seq;for(let r=0,o=s.length;r!==o;++r){let a=s[r];a.setValue(t,e[a.id],n)}}},_d=/(\w+)(\])?(\[|\.)?/g;function p_(i,t){i.seq.push(t),i.map[t.id]=t}function gT(i,t,e){let n=i.name,s=n.length;for(_d.lastIndex=0;;){let r=_d.exec(n),o=_d.lastIndex,a=r[1],l=r[2]==="]",c=r[3];if(l&&(a=a|0),c===void 0||c==="["&&o+2===s){p_(e,c===void 0?new yd(a,i,t):new vd(a,i,t));break}else{let d=e.map[a];d===void 0&&(d=new Md(a),p_(e,d)),e=d}}}var sr=class{constructor(t,e){this.seq=[],this.map={};let n=t.getProgramParameter(e,t.ACTIVE_UNIFORMS);for(let o=0;o<n;++o){let a=t.getActiveUniform(e,o),l=t.getUniformLocation(e,a.name);gT(a,l,this)}let s=[],r=[];for(let o of this.seq)o.type===t.SAMPLER_2D_SHADOW||o.type===t.SAMPLER_CUBE_SHADOW||o.type===t.SAMPLER_2D_ARRAY_SHADOW?s.push(o):r.push(o);s.length>0&&(this.seq=s.concat(r))}setValue(t,e,n,s){let r=this.map[e];r!==void 0&&r.setValue(t,n,s)}setOptional(t,e,n){let s=e[n];s!==void 0&&this.setValue(t,n,s)}static upload(t,e,n,s){for(let r=0,o=e.length;r!==o;++r){let a=e[r],l=n[a.id];l.needsUpdate!==!1&&a.setValue(t,l.value,s)}}static seqWithValue(t,e){let n=[];for(let s=0,r=t.length;s!==r;++s){let o=t[s];o.id in e&&n.push(o)}return n}};function m_(i,t,e){let n=i.createShader(t);return i.shaderSource(n,e),i.compileShader(n),n}var _T=37297,xT=0;function yT(i,t){let e=i.split(`
`),n=[],s=Math.max(t-6,0),r=Math.min(t+6,e.length);for(let o=s;o<r;o++){let a=o+1;n.push(`${a===t?">":" "} ${a}: ${e[o]}`)}return n.join(`
`)}var g_=new Bt;function vT(i){Kt._getMatrix(g_,Kt.workingColorSpace,i);let t=`mat3( ${g_.elements.map(e=>e.toFixed(4))} )`;switch(Kt.getTransfer(i)){case qr:return[t,"LinearTransferOETF"];case se:return[t,"sRGBTransferOETF"];default:return Ut("WebGLProgram: Unsupported color space: ",i),[t,"LinearTransferOETF"]}}function __(i,t,e){let n=i.getShaderParameter(t,i.COMPILE_STATUS),r=(i.getShaderInfoLog(t)||"").trim();if(n&&r==="")return"";let o=/ERROR: 0:(\d+)/.exec(r);if(o){let a=parseInt(o[1]);return e.toUpperCase()+`

`+r+`

`+yT(i.getShaderSource(t),a)}else return r}function MT(i,t){let e=vT(t);return[`vec4 ${i}( vec4 value ) {`,`	return ${e[1]}( vec4( ${e[0]} * value.rgb, value.a ) );`,"}"].join(`
`)}var ST={[Gu]:"Linear",[Vu]:"Reinhard",[Hu]:"Cineon",[Wu]:"ACESFilmic",[$u]:"AgX",[qu]:"Neutral",[Xu]:"Custom"};function bT(i,t){let e=ST[t];return e===void 0?(Ut("WebGLProgram: Unsupported toneMapping:",t),"vec3 "+i+"( vec3 color ) { return LinearToneMapping( color ); }"):"vec3 "+i+"( vec3 color ) { return "+e+"ToneMapping( color ); }"}var hc=new V;function wT(){Kt.getLuminanceCoefficients(hc);let i=hc.x.toFixed(4),t=hc.y.toFixed(4),e=hc.z.toFixed(4);return["float luminance( const in vec3 rgb ) {",`	const vec3 weights = vec3( ${i}, ${t}, ${e} );`,"	return dot( weights, rgb );","}"].join(`
`)}function TT(i){return[i.extensionClipCullDistance?"#extension GL_ANGLE_clip_cull_distance : require":"",i.extensionMultiDraw?"#extension GL_ANGLE_multi_draw : require":""].filter(yo).join(`
`)}function AT(i){let t=[];for(let e in i){let n=i[e];n!==!1&&t.push("#define "+e+" "+n)}return t.join(`
`)}function ET(i,t){let e={},n=i.getProgramParameter(t,i.ACTIVE_ATTRIBUTES);for(let s=0;s<n;s++){let r=i.getActiveAttrib(t,s),o=r.name,a=1;r.type===i.FLOAT_MAT2&&(a=2),r.type===i.FLOAT_MAT3&&(a=3),r.type===i.FLOAT_MAT4&&(a=4),e[o]={type:r.type,location:i.getAttribLocation(t,o),locationSize:a}}return e}function yo(i){return i!==""}function x_(i,t){let e=t.numSpotLightShadows+t.numSpotLightMaps-t.numSpotLightShadowsWithMaps;return i.replace(/NUM_SUN_LIGHTS/g,t.numSunLights).replace(/NUM_DIR_LIGHTS/g,t.numDirLights).replace(/NUM_SPOT_LIGHTS/g,t.numSpotLights).replace(/NUM_SPOT_LIGHT_MAPS/g,t.numSpotLightMaps).replace(/NUM_SPOT_LIGHT_COORDS/g,e).replace(/NUM_RECT_AREA_LIGHTS/g,t.numRectAreaLights).replace(/NUM_POINT_LIGHTS/g,t.numPointLights).replace(/NUM_HEMI_LIGHTS/g,t.numHemiLights).replace(/NUM_SUN_LIGHT_SHADOWS/g,t.numSunLightShadows).replace(/NUM_DIR_LIGHT_SHADOWS/g,t.numDirLightShadows).replace(/NUM_SPOT_LIGHT_SHADOWS_WITH_MAPS/g,t.numSpotLightShadowsWithMaps).replace(/NUM_SPOT_LIGHT_SHADOWS/g,t.numSpotLightShadows).replace(/NUM_POINT_LIGHT_SHADOWS/g,t.numPointLightShadows).replace(/NUM_LIGHT_PROBE_GRIDS/g,t.numLightProbeGrids)}function y_(i,t){return i.replace(/NUM_CLIPPING_PLANES/g,t.numClippingPlanes).replace(/UNION_CLIPPING_PLANES/g,t.numClippingPlanes-t.numClipIntersection)}var CT=/^[ \t]*#include +<([\w\d./]+)>/gm;function Sd(i){return i.replace(CT,RT)}function RT(i,t){let e=$t[t];if(e===void 0)throw new Error("THREE.WebGLProgram: Can not resolve #include <"+t+">");return Sd(e)}var IT=/#pragma unroll_loop_start\s+for\s*\(\s*int\s+i\s*=\s*(\d+)\s*;\s*i\s*<\s*(\d+)\s*;\s*i\s*\+\+\s*\)\s*{([\s\S]+?)}\s+#pragma unroll_loop_end/g;function v_(i){return i.replace(IT,PT)}function PT(i,t,e,n){let s="";for(let r=parseInt(t);r<parseInt(e);r++)s+=n.replace(/\[\s*i\s*\]/g,"[ "+r+" ]").replace(/UNROLLED_LOOP_INDEX/g,r);return s}function M_(i){let t=`precision ${i.precision} float;
	precision ${i.precision} int;
	precision ${i.precision} sampler2D;
	precision ${i.precision} samplerCube;
	precision ${i.precision} sampler3D;
	precision ${i.precision} sampler2DArray;
	precision ${i.precision} sampler2DShadow;
	precision ${i.precision} samplerCubeShadow;
	precision ${i.precision} sampler2DArrayShadow;
	precision ${i.precision} isampler2D;
	precision ${i.precision} isampler3D;
	precision ${i.precision} isamplerCube;
	precision ${i.precision} isampler2DArray;
	precision ${i.precision} usampler2D;
	precision ${i.precision} usampler3D;
	precision ${i.precision} usamplerCube;
	precision ${i.precision} usampler2DArray;
	`;return i.precision==="highp"?t+=`
#define HIGH_PRECISION`:i.precision==="mediump"?t+=`
#define MEDIUM_PRECISION`:i.precision==="lowp"&&(t+=`
#define LOW_PRECISION`),t}var LT={[ao]:"SHADOWMAP_TYPE_PCF",[tr]:"SHADOWMAP_TYPE_VSM"};function NT(i){return LT[i.shadowMapType]||"SHADOWMAP_TYPE_BASIC"}var DT={[nr]:"ENVMAP_MODE_REFRACTION"};function OT(i){return i.envMap===!1?"ENVMAP_MODE_REFLECTION":DT[i.envMapMode]||"ENVMAP_MODE_REFLECTION"}var UT={[zu]:"ENVMAP_BLENDING_MULTIPLY",[k0]:"ENVMAP_BLENDING_MIX",[B0]:"ENVMAP_BLENDING_ADD"};function FT(i){return i.envMap===!1?"ENVMAP_BLENDING_NONE":UT[i.combine]||"ENVMAP_BLENDING_NONE"}function kT(i,t,e,n){let s=i.getContext(),r=e.defines,o=e.vertexShader,a=e.fragmentShader,l=NT(e),c=e.envMapPMREM===!0?"ENVMAP_TYPE_PMREM":"ENVMAP_TYPE_CUBE",h=OT(e),d=FT(e),u=TT(e),f=AT(r),m=s.createProgram(),S,g,_=e.glslVersion?"#version "+e.glslVersion+`
`:"";e.isRawShaderMaterial?(S=["#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f].filter(yo).join(`
`),S.length>0&&(S+=`
`),g=["#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f].filter(yo).join(`
`),g.length>0&&(g+=`
`)):(S=[M_(e),"#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f,e.extensionClipCullDistance?"#define USE_CLIP_DISTANCE":"",e.batching?"#define USE_BATCHING":"",e.batchingColor?"#define USE_BATCHING_COLOR":"",e.instancing?"#define USE_INSTANCING":"",e.instancingColor?"#define USE_INSTANCING_COLOR":"",e.instancingMorph?"#define USE_INSTANCING_MORPH":"",e.useFog&&e.fog?"#define USE_FOG":"",e.useFog&&e.fogExp2?"#define FOG_EXP2":"",e.map?"#define USE_MAP":"",e.envMap?"#define USE_ENVMAP":"",e.envMap?"#define "+h:"",e.lightMap?"#define USE_LIGHTMAP":"",e.aoMap?"#define USE_AOMAP":"",e.bumpMap?"#define USE_BUMPMAP":"",e.normalMap?"#define USE_NORMALMAP":"",e.normalMapObjectSpace?"#define USE_NORMALMAP_OBJECTSPACE":"",e.normalMapTangentSpace?"#define USE_NORMALMAP_TANGENTSPACE":"",e.displacementMap?"#define USE_DISPLACEMENTMAP":"",e.emissiveMap?"#define USE_EMISSIVEMAP":"",e.anisotropy?"#define USE_ANISOTROPY":"",e.anisotropyMap?"#define USE_ANISOTROPYMAP":"",e.clearcoatMap?"#define USE_CLEARCOATMAP":"",e.clearcoatRoughnessMap?"#define USE_CLEARCOAT_ROUGHNESSMAP":"",e.clearcoatNormalMap?"#define USE_CLEARCOAT_NORMALMAP":"",e.diffuseRoughnessMap?"#define USE_DIFFUSE_ROUGHNESSMAP":"",e.iridescenceMap?"#define USE_IRIDESCENCEMAP":"",e.iridescenceThicknessMap?"#define USE_IRIDESCENCE_THICKNESSMAP":"",e.specularMap?"#define USE_SPECULARMAP":"",e.specularColorMap?"#define USE_SPECULAR_COLORMAP":"",e.specularIntensityMap?"#define USE_SPECULAR_INTENSITYMAP":"",e.roughnessMap?"#define USE_ROUGHNESSMAP":"",e.metalnessMap?"#define USE_METALNESSMAP":"",e.alphaMap?"#define USE_ALPHAMAP":"",e.alphaHash?"#define USE_ALPHAHASH":"",e.transmission?"#define USE_TRANSMISSION":"",e.transmissionMap?"#define USE_TRANSMISSIONMAP":"",e.thicknessMap?"#define USE_THICKNESSMAP":"",e.sheenColorMap?"#define USE_SHEEN_COLORMAP":"",e.sheenRoughnessMap?"#define USE_SHEEN_ROUGHNESSMAP":"",e.mapUv?"#define MAP_UV "+e.mapUv:"",e.alphaMapUv?"#define ALPHAMAP_UV "+e.alphaMapUv:"",e.lightMapUv?"#define LIGHTMAP_UV "+e.lightMapUv:"",e.aoMapUv?"#define AOMAP_UV "+e.aoMapUv:"",e.emissiveMapUv?"#define EMISSIVEMAP_UV "+e.emissiveMapUv:"",e.bumpMapUv?"#define BUMPMAP_UV "+e.bumpMapUv:"",e.normalMapUv?"#define NORMALMAP_UV "+e.normalMapUv:"",e.displacementMapUv?"#define DISPLACEMENTMAP_UV "+e.displacementMapUv:"",e.metalnessMapUv?"#define METALNESSMAP_UV "+e.metalnessMapUv:"",e.roughnessMapUv?"#define ROUGHNESSMAP_UV "+e.roughnessMapUv:"",e.anisotropyMapUv?"#define ANISOTROPYMAP_UV "+e.anisotropyMapUv:"",e.clearcoatMapUv?"#define CLEARCOATMAP_UV "+e.clearcoatMapUv:"",e.clearcoatNormalMapUv?"#define CLEARCOAT_NORMALMAP_UV "+e.clearcoatNormalMapUv:"",e.clearcoatRoughnessMapUv?"#define CLEARCOAT_ROUGHNESSMAP_UV "+e.clearcoatRoughnessMapUv:"",e.diffuseRoughnessMapUv?"#define DIFFUSE_ROUGHNESSMAP_UV "+e.diffuseRoughnessMapUv:"",e.iridescenceMapUv?"#define IRIDESCENCEMAP_UV "+e.iridescenceMapUv:"",e.iridescenceThicknessMapUv?"#define IRIDESCENCE_THICKNESSMAP_UV "+e.iridescenceThicknessMapUv:"",e.sheenColorMapUv?"#define SHEEN_COLORMAP_UV "+e.sheenColorMapUv:"",e.sheenRoughnessMapUv?"#define SHEEN_ROUGHNESSMAP_UV "+e.sheenRoughnessMapUv:"",e.specularMapUv?"#define SPECULARMAP_UV "+e.specularMapUv:"",e.specularColorMapUv?"#define SPECULAR_COLORMAP_UV "+e.specularColorMapUv:"",e.specularIntensityMapUv?"#define SPECULAR_INTENSITYMAP_UV "+e.specularIntensityMapUv:"",e.transmissionMapUv?"#define TRANSMISSIONMAP_UV "+e.transmissionMapUv:"",e.thicknessMapUv?"#define THICKNESSMAP_UV "+e.thicknessMapUv:"",e.vertexTangents&&e.flatShading===!1?"#define USE_TANGENT":"",e.vertexNormals?"#define HAS_NORMAL":"",e.vertexColors?"#define USE_COLOR":"",e.vertexAlphas?"#define USE_COLOR_ALPHA":"",e.vertexUv1s?"#define USE_UV1":"",e.vertexUv2s?"#define USE_UV2":"",e.vertexUv3s?"#define USE_UV3":"",e.pointsUvs?"#define USE_POINTS_UV":"",e.flatShading?"#define FLAT_SHADED":"",e.skinning?"#define USE_SKINNING":"",e.morphTargets?"#define USE_MORPHTARGETS":"",e.morphNormals&&e.flatShading===!1?"#define USE_MORPHNORMALS":"",e.morphColors?"#define USE_MORPHCOLORS":"",e.morphTargetsCount>0?"#define MORPHTARGETS_TEXTURE_STRIDE "+e.morphTextureStride:"",e.morphTargetsCount>0?"#define MORPHTARGETS_COUNT "+e.morphTargetsCount:"",e.doubleSided?"#define DOUBLE_SIDED":"",e.flipSided?"#define FLIP_SIDED":"",e.shadowMapEnabled?"#define USE_SHADOWMAP":"",e.shadowMapEnabled?"#define "+l:"",e.sizeAttenuation?"#define USE_SIZEATTENUATION":"",e.numLightProbes>0?"#define USE_LIGHT_PROBES":"",e.logarithmicDepthBuffer?"#define USE_LOGARITHMIC_DEPTH_BUFFER":"",e.reversedDepthBuffer?"#define USE_REVERSED_DEPTH_BUFFER":"","uniform mat4 modelMatrix;","uniform mat4 modelViewMatrix;","uniform mat4 projectionMatrix;","uniform mat4 viewMatrix;","uniform mat3 normalMatrix;","uniform vec3 cameraPosition;","uniform bool isOrthographic;","#ifdef USE_INSTANCING","	attribute mat4 instanceMatrix;","#endif","#ifdef USE_INSTANCING_COLOR","	attribute vec3 instanceColor;","#endif","#ifdef USE_INSTANCING_MORPH","	uniform sampler2D morphTexture;","#endif","attribute vec3 position;","attribute vec3 normal;","attribute vec2 uv;","#ifdef USE_UV1","	attribute vec2 uv1;","#endif","#ifdef USE_UV2","	attribute vec2 uv2;","#endif","#ifdef USE_UV3","	attribute vec2 uv3;","#endif","#ifdef USE_TANGENT","	attribute vec4 tangent;","#endif","#if defined( USE_COLOR_ALPHA )","	attribute vec4 color;","#elif defined( USE_COLOR )","	attribute vec3 color;","#endif","#ifdef USE_SKINNING","	attribute vec4 skinIndex;","	attribute vec4 skinWeight;","#endif",`
`].filter(yo).join(`
`),g=[M_(e),"#define SHADER_TYPE "+e.shaderType,"#define SHADER_NAME "+e.shaderName,f,e.useFog&&e.fog?"#define USE_FOG":"",e.useFog&&e.fogExp2?"#define FOG_EXP2":"",e.alphaToCoverage?"#define ALPHA_TO_COVERAGE":"",e.map?"#define USE_MAP":"",e.matcap?"#define USE_MATCAP":"",e.envMap?"#define USE_ENVMAP":"",e.envMap?"#define "+c:"",e.envMap?"#define "+h:"",e.envMap?"#define "+d:"",e.envMapPMREM?"#define ENVMAP_MAX_LOD "+e.envMapMaxLod+".0":"",e.envMapPMREM?"#define ENVMAP_SIZE "+e.envMapSize+".0":"",e.lightMap?"#define USE_LIGHTMAP":"",e.aoMap?"#define USE_AOMAP":"",e.bumpMap?"#define USE_BUMPMAP":"",e.normalMap?"#define USE_NORMALMAP":"",e.normalMapObjectSpace?"#define USE_NORMALMAP_OBJECTSPACE":"",e.normalMapTangentSpace?"#define USE_NORMALMAP_TANGENTSPACE":"",e.packedNormalMap?"#define USE_PACKED_NORMALMAP":"",e.emissiveMap?"#define USE_EMISSIVEMAP":"",e.anisotropy?"#define USE_ANISOTROPY":"",e.anisotropyMap?"#define USE_ANISOTROPYMAP":"",e.clearcoat?"#define USE_CLEARCOAT":"",e.clearcoatMap?"#define USE_CLEARCOATMAP":"",e.clearcoatRoughnessMap?"#define USE_CLEARCOAT_ROUGHNESSMAP":"",e.clearcoatNormalMap?"#define USE_CLEARCOAT_NORMALMAP":"",e.diffuseRoughness?"#define USE_DIFFUSE_ROUGHNESS":"",e.diffuseRoughnessMap?"#define USE_DIFFUSE_ROUGHNESSMAP":"",e.dispersion?"#define USE_DISPERSION":"",e.retroreflection?"#define USE_RETROREFLECTION":"",e.iridescence?"#define USE_IRIDESCENCE":"",e.iridescenceMap?"#define USE_IRIDESCENCEMAP":"",e.iridescenceThicknessMap?"#define USE_IRIDESCENCE_THICKNESSMAP":"",e.specularMap?"#define USE_SPECULARMAP":"",e.specularColorMap?"#define USE_SPECULAR_COLORMAP":"",e.specularIntensityMap?"#define USE_SPECULAR_INTENSITYMAP":"",e.roughnessMap?"#define USE_ROUGHNESSMAP":"",e.metalnessMap?"#define USE_METALNESSMAP":"",e.alphaMap?"#define USE_ALPHAMAP":"",e.alphaTest?"#define USE_ALPHATEST":"",e.alphaHash?"#define USE_ALPHAHASH":"",e.sheen?"#define USE_SHEEN":"",e.sheenColorMap?"#define USE_SHEEN_COLORMAP":"",e.sheenRoughnessMap?"#define USE_SHEEN_ROUGHNESSMAP":"",e.transmission?"#define USE_TRANSMISSION":"",e.transmissionMap?"#define USE_TRANSMISSIONMAP":"",e.thicknessMap?"#define USE_THICKNESSMAP":"",e.vertexTangents&&e.flatShading===!1?"#define USE_TANGENT":"",e.vertexColors||e.instancingColor?"#define USE_COLOR":"",e.vertexAlphas||e.batchingColor?"#define USE_COLOR_ALPHA":"",e.vertexUv1s?"#define USE_UV1":"",e.vertexUv2s?"#define USE_UV2":"",e.vertexUv3s?"#define USE_UV3":"",e.pointsUvs?"#define USE_POINTS_UV":"",e.gradientMap?"#define USE_GRADIENTMAP":"",e.flatShading?"#define FLAT_SHADED":"",e.doubleSided?"#define DOUBLE_SIDED":"",e.flipSided?"#define FLIP_SIDED":"",e.shadowMapEnabled?"#define USE_SHADOWMAP":"",e.shadowMapEnabled?"#define "+l:"",e.premultipliedAlpha?"#define PREMULTIPLIED_ALPHA":"",e.numLightProbes>0?"#define USE_LIGHT_PROBES":"",e.decodeVideoTexture?"#define DECODE_VIDEO_TEXTURE":"",e.decodeVideoTextureEmissive?"#define DECODE_VIDEO_TEXTURE_EMISSIVE":"",e.logarithmicDepthBuffer?"#define USE_LOGARITHMIC_DEPTH_BUFFER":"",e.reversedDepthBuffer?"#define USE_REVERSED_DEPTH_BUFFER":"","uniform mat4 viewMatrix;","uniform vec3 cameraPosition;","uniform bool isOrthographic;",e.toneMapping!==ui?"#define TONE_MAPPING":"",e.toneMapping!==ui?$t.tonemapping_pars_fragment:"",e.toneMapping!==ui?bT("toneMapping",e.toneMapping):"",e.dithering?"#define DITHERING":"",e.opaque?"#define OPAQUE":"",$t.colorspace_pars_fragment,MT("linearToOutputTexel",e.outputColorSpace),wT(),e.useDepthPacking?"#define DEPTH_PACKING "+e.depthPacking:"",`
`].filter(yo).join(`
`)),o=Sd(o),o=x_(o,e),o=y_(o,e),a=Sd(a),a=x_(a,e),a=y_(a,e),o=v_(o),a=v_(a),e.isRawShaderMaterial!==!0&&(_=`#version 300 es
`,S=[u,"#define attribute in","#define varying out","#define texture2D texture"].join(`
`)+`
`+S,g=["#define varying in",e.glslVersion===go?"":"layout(location = 0) out highp vec4 pc_fragColor;",e.glslVersion===go?"":"#define gl_FragColor pc_fragColor","#define gl_FragDepthEXT gl_FragDepth","#define texture2D texture","#define textureCube texture","#define texture2DProj textureProj","#define texture2DLodEXT textureLod","#define texture2DProjLodEXT textureProjLod","#define textureCubeLodEXT textureLod","#define texture2DGradEXT textureGrad","#define texture2DProjGradEXT textureProjGrad","#define textureCubeGradEXT textureGrad"].join(`
`)+`
`+g);let b=_+S+o,I=_+g+a,A=m_(s,s.VERTEX_SHADER,b),C=m_(s,s.FRAGMENT_SHADER,I);s.attachShader(m,A),s.attachShader(m,C),e.index0AttributeName!==void 0?s.bindAttribLocation(m,0,e.index0AttributeName):e.hasPositionAttribute===!0&&s.bindAttribLocation(m,0,"position"),s.linkProgram(m);function E(N){if(i.debug.checkShaderErrors){let O=s.getProgramInfoLog(m)||"",z=s.getShaderInfoLog(A)||"",Y=s.getShaderInfoLog(C)||"",L=O.trim(),$=z.trim(),j=Y.trim(),H=!0,rt=!0;if(s.getProgramParameter(m,s.LINK_STATUS)===!1)if(H=!1,typeof i.debug.onShaderError=="function")i.debug.onShaderError(s,m,A,C);else{let X=__(s,A,"vertex"),tt=__(s,C,"fragment");Ft("WebGLProgram: Shader Error "+s.getError()+" - VALIDATE_STATUS "+s.getProgramParameter(m,s.VALIDATE_STATUS)+`

Material Name: `+N.name+`
Material Type: `+N.type+`

Program Info Log: `+L+`
`+X+`
`+tt)}else L!==""?Ut("WebGLProgram: Program Info Log:",L):($===""||j==="")&&(rt=!1);rt&&(N.diagnostics={runnable:H,programLog:L,vertexShader:{log:$,prefix:S},fragmentShader:{log:j,prefix:g}})}s.deleteShader(A),s.deleteShader(C),y=new sr(s,m),T=ET(s,m)}let y;this.getUniforms=function(){return y===void 0&&E(this),y};let T;this.getAttributes=function(){return T===void 0&&E(this),T};let B=e.rendererExtensionParallelShaderCompile===!1;return this.isReady=function(){return B===!1&&(B=s.getProgramParameter(m,_T)),B},this.destroy=function(){n.releaseStatesOfProgram(this),s.deleteProgram(m),this.program=void 0},this.type=e.shaderType,this.name=e.shaderName,this.id=xT++,this.cacheKey=t,this.usedTimes=1,this.program=m,this.vertexShader=A,this.fragmentShader=C,this}var BT=0,bd=class{constructor(){this.shaderCache=new Map,this.materialCache=new Map}update(t,e,n){let s=this._getShaderCacheForMaterial(t);return s.has(e)===!1&&(s.add(e),e.usedTimes++),s.has(n)===!1&&(s.add(n),n.usedTimes++),this}remove(t){let e=this.materialCache.get(t);for(let n of e)n.usedTimes--,n.usedTimes===0&&this.shaderCache.delete(n.code);return this.materialCache.delete(t),this}getVertexShaderStage(t){return this._getShaderStage(t.vertexShader)}getFragmentShaderStage(t){return this._getShaderStage(t.fragmentShader)}dispose(){this.shaderCache.clear(),this.materialCache.clear()}_getShaderCacheForMaterial(t){let e=this.materialCache,n=e.get(t);return n===void 0&&(n=new Set,e.set(t,n)),n}_getShaderStage(t){let e=this.shaderCache,n=e.get(t);return n===void 0&&(n=new wd(t),e.set(t,n)),n}},wd=class{constructor(t){this.id=BT++,this.code=t,this.usedTimes=0}};function zT(i){return i===Zi||i===po||i===mo}function GT(i,t,e,n,s,r){let o=new Kr,a=new bd,l=new Set,c=[],h=new Map,d=n.logarithmicDepthBuffer,u={MeshDepthMaterial:"depth",MeshDistanceMaterial:"distance",MeshNormalMaterial:"normal",MeshBasicMaterial:"basic",MeshLambertMaterial:"lambert",MeshPhongMaterial:"phong",MeshToonMaterial:"toon",MeshStandardMaterial:"physical",MeshPhysicalMaterial:"physical",MeshMatcapMaterial:"matcap",LineBasicMaterial:"basic",LineDashedMaterial:"dashed",PointsMaterial:"points",ShadowMaterial:"shadow",SpriteMaterial:"sprite"};function f(y){return l.add(y),y===0?"uv":`uv${y}`}function m(y,T,B,N,O,z){let Y=N.fog,L=O.geometry,$=y.isMeshStandardMaterial||y.isMeshLambertMaterial||y.isMeshPhongMaterial?N.environment:null,j=y.isMeshStandardMaterial||y.isMeshLambertMaterial&&!y.envMap||y.isMeshPhongMaterial&&!y.envMap,H=t.get(y.envMap||$,j),rt=u[y.type],X=n.precision;y.precision!==null&&(X=n.getMaxPrecision(y.precision),X!==y.precision&&Ut("WebGLProgram.getParameters:",y.precision,"not supported, using",X,"instead."));let tt=L.morphAttributes.position||L.morphAttributes.normal||L.morphAttributes.color,et=tt!==void 0?tt.length:0,Et=0;L.morphAttributes.position!==void 0&&(Et=1),L.morphAttributes.normal!==void 0&&(Et=2),L.morphAttributes.color!==void 0&&(Et=3);let Gt,Z,yt,wt;if(rt){let _t=fi[rt];Gt=_t.vertexShader,Z=_t.fragmentShader}else{Gt=y.vertexShader,Z=y.fragmentShader;let _t=a.getVertexShaderStage(y),oe=a.getFragmentShaderStage(y);a.update(y,_t,oe),yt=_t.id,wt=oe.id}let Nt=i.getRenderTarget(),Mt=i.state.buffers.depth.getReversed(),Ht=O.isInstancedMesh===!0,we=O.isBatchedMesh===!0,Ot=!!y.map,re=!!y.matcap,ae=!!H,Yt=ae&&H.isPMREMTexture===!0,Ve=!!y.aoMap,Ie=!!y.lightMap,cn=!!y.bumpMap&&y.wireframe===!1,me=!!y.normalMap,ti=!!y.displacementMap,Oe=!!y.emissiveMap,wn=!!y.metalnessMap,Tn=!!y.roughnessMap,An=y.anisotropy>0,D=y.clearcoat>0,En=y.diffuseRoughness>0,fe=y.dispersion>0,pe=y.retroreflectivity>0,gt=y.iridescence>0,Pe=y.sheen>0,Dt=y.transmission>0,zt=An&&!!y.anisotropyMap,w=D&&!!y.clearcoatMap,v=D&&!!y.clearcoatNormalMap,F=D&&!!y.clearcoatRoughnessMap,it=En&&!!y.diffuseRoughnessMap,Q=gt&&!!y.iridescenceMap,ct=gt&&!!y.iridescenceThicknessMap,pt=Pe&&!!y.sheenColorMap,q=Pe&&!!y.sheenRoughnessMap,J=!!y.specularMap,ut=!!y.specularColorMap,R=!!y.specularIntensityMap,K=Dt&&!!y.transmissionMap,W=Dt&&!!y.thicknessMap,dt=!!y.gradientMap,at=!!y.alphaMap,ht=y.alphaTest>0,Pt=!!y.alphaHash,Xt=!!y.extensions,ot=ui;y.toneMapped&&(Nt===null||Nt.isXRRenderTarget===!0)&&(ot=i.toneMapping);let Lt=Yt?H.isCompressedCubeTexture?H.image[0].mipmaps:H.mipmaps:null,Wt={shaderID:rt,shaderType:y.type,shaderName:y.name,vertexShader:Gt,fragmentShader:Z,defines:y.defines,customVertexShaderID:yt,customFragmentShaderID:wt,isRawShaderMaterial:y.isRawShaderMaterial===!0,glslVersion:y.glslVersion,precision:X,batching:we,batchingColor:we&&O._colorsTexture!==null,instancing:Ht,instancingColor:Ht&&O.instanceColor!==null,instancingMorph:Ht&&O.morphTexture!==null,outputColorSpace:Nt===null?i.outputColorSpace:Nt.isXRRenderTarget===!0?Nt.texture.colorSpace:Kt.workingColorSpace,alphaToCoverage:!!y.alphaToCoverage,map:Ot,matcap:re,envMap:ae,envMapMode:ae&&H.mapping,envMapPMREM:Yt,envMapMaxLod:Yt?Lt.length-1:null,envMapSize:Yt?Lt[0].width:null,aoMap:Ve,lightMap:Ie,bumpMap:cn,normalMap:me,displacementMap:ti,emissiveMap:Oe,normalMapObjectSpace:me&&y.normalMapType===V0,normalMapTangentSpace:me&&y.normalMapType===nd,packedNormalMap:me&&y.normalMapType===nd&&zT(y.normalMap.format),metalnessMap:wn,roughnessMap:Tn,anisotropy:An,anisotropyMap:zt,clearcoat:D,clearcoatMap:w,clearcoatNormalMap:v,clearcoatRoughnessMap:F,diffuseRoughness:En,diffuseRoughnessMap:it,dispersion:fe,retroreflection:pe,iridescence:gt,iridescenceMap:Q,iridescenceThicknessMap:ct,sheen:Pe,sheenColorMap:pt,sheenRoughnessMap:q,specularMap:J,specularColorMap:ut,specularIntensityMap:R,transmission:Dt,transmissionMap:K,thicknessMap:W,gradientMap:dt,opaque:y.transparent===!1&&y.blending===er&&y.alphaToCoverage===!1,alphaMap:at,alphaTest:ht,alphaHash:Pt,combine:y.combine,mapUv:Ot&&f(y.map.channel),aoMapUv:Ve&&f(y.aoMap.channel),lightMapUv:Ie&&f(y.lightMap.channel),bumpMapUv:cn&&f(y.bumpMap.channel),normalMapUv:me&&f(y.normalMap.channel),displacementMapUv:ti&&f(y.displacementMap.channel),emissiveMapUv:Oe&&f(y.emissiveMap.channel),metalnessMapUv:wn&&f(y.metalnessMap.channel),roughnessMapUv:Tn&&f(y.roughnessMap.channel),anisotropyMapUv:zt&&f(y.anisotropyMap.channel),clearcoatMapUv:w&&f(y.clearcoatMap.channel),clearcoatNormalMapUv:v&&f(y.clearcoatNormalMap.channel),clearcoatRoughnessMapUv:F&&f(y.clearcoatRoughnessMap.channel),diffuseRoughnessMapUv:it&&f(y.diffuseRoughnessMap.channel),iridescenceMapUv:Q&&f(y.iridescenceMap.channel),iridescenceThicknessMapUv:ct&&f(y.iridescenceThicknessMap.channel),sheenColorMapUv:pt&&f(y.sheenColorMap.channel),sheenRoughnessMapUv:q&&f(y.sheenRoughnessMap.channel),specularMapUv:J&&f(y.specularMap.channel),specularColorMapUv:ut&&f(y.specularColorMap.channel),specularIntensityMapUv:R&&f(y.specularIntensityMap.channel),transmissionMapUv:K&&f(y.transmissionMap.channel),thicknessMapUv:W&&f(y.thicknessMap.channel),alphaMapUv:at&&f(y.alphaMap.channel),vertexTangents:!!L.attributes.tangent&&(me||An),vertexNormals:!!L.attributes.normal,vertexColors:y.vertexColors,vertexAlphas:y.vertexColors===!0&&!!L.attributes.color&&L.attributes.color.itemSize===4,pointsUvs:O.isPoints===!0&&!!L.attributes.uv&&(Ot||at),fog:!!Y,useFog:y.fog===!0,fogExp2:!!Y&&Y.isFogExp2,flatShading:y.wireframe===!1&&(y.flatShading===!0||L.attributes.normal===void 0&&me===!1&&(y.isMeshLambertMaterial||y.isMeshPhongMaterial||y.isMeshStandardMaterial||y.isMeshPhysicalMaterial)),sizeAttenuation:y.sizeAttenuation===!0,logarithmicDepthBuffer:d,reversedDepthBuffer:Mt,skinning:O.isSkinnedMesh===!0,hasPositionAttribute:L.attributes.position!==void 0,morphTargets:L.morphAttributes.position!==void 0,morphNormals:L.morphAttributes.normal!==void 0,morphColors:L.morphAttributes.color!==void 0,morphTargetsCount:et,morphTextureStride:Et,numSunLights:T.sun.length,numDirLights:T.directional.length,numPointLights:T.point.length,numSpotLights:T.spot.length,numSpotLightMaps:T.spotLightMap.length,numRectAreaLights:T.rectArea.length,numHemiLights:T.hemi.length,numSunLightShadows:T.sunShadowMap.length,numDirLightShadows:T.directionalShadowMap.length,numPointLightShadows:T.pointShadowMap.length,numSpotLightShadows:T.spotShadowMap.length,numSpotLightShadowsWithMaps:T.numSpotLightShadowsWithMaps,numLightProbes:T.numLightProbes,numLightProbeGrids:z.filter(_t=>_t.texture!==null).length,numClippingPlanes:r.numPlanes,numClipIntersection:r.numIntersection,dithering:y.dithering,shadowMapEnabled:i.shadowMap.enabled&&B.length>0,shadowMapType:i.shadowMap.type,toneMapping:ot,decodeVideoTexture:Ot&&y.map.isVideoTexture===!0&&Kt.getTransfer(y.map.colorSpace)===se,decodeVideoTextureEmissive:Oe&&y.emissiveMap.isVideoTexture===!0&&Kt.getTransfer(y.emissiveMap.colorSpace)===se,premultipliedAlpha:y.premultipliedAlpha,doubleSided:y.side===Bn,flipSided:y.side===ln,useDepthPacking:y.depthPacking>=0,depthPacking:y.depthPacking||0,index0AttributeName:y.index0AttributeName,extensionClipCullDistance:Xt&&y.extensions.clipCullDistance===!0&&e.has("WEBGL_clip_cull_distance"),extensionMultiDraw:(Xt&&y.extensions.multiDraw===!0||we)&&e.has("WEBGL_multi_draw"),rendererExtensionParallelShaderCompile:e.has("KHR_parallel_shader_compile"),customProgramCacheKey:y.customProgramCacheKey()};return Wt.vertexUv1s=l.has(1),Wt.vertexUv2s=l.has(2),Wt.vertexUv3s=l.has(3),l.clear(),Wt}function S(y){let T=[];if(y.shaderID?T.push(y.shaderID):(T.push(y.customVertexShaderID),T.push(y.customFragmentShaderID)),y.defines!==void 0)for(let B in y.defines)T.push(B),T.push(y.defines[B]);return y.isRawShaderMaterial===!1&&(g(T,y),_(T,y),T.push(i.outputColorSpace)),T.push(y.customProgramCacheKey),T.join()}function g(y,T){y.push(T.precision),y.push(T.outputColorSpace),y.push(T.envMapMode),y.push(T.envMapPMREM),y.push(T.envMapMaxLod),y.push(T.envMapSize),y.push(T.mapUv),y.push(T.alphaMapUv),y.push(T.lightMapUv),y.push(T.aoMapUv),y.push(T.bumpMapUv),y.push(T.normalMapUv),y.push(T.displacementMapUv),y.push(T.emissiveMapUv),y.push(T.metalnessMapUv),y.push(T.roughnessMapUv),y.push(T.anisotropyMapUv),y.push(T.clearcoatMapUv),y.push(T.clearcoatNormalMapUv),y.push(T.clearcoatRoughnessMapUv),y.push(T.diffuseRoughnessMapUv),y.push(T.iridescenceMapUv),y.push(T.iridescenceThicknessMapUv),y.push(T.sheenColorMapUv),y.push(T.sheenRoughnessMapUv),y.push(T.specularMapUv),y.push(T.specularColorMapUv),y.push(T.specularIntensityMapUv),y.push(T.transmissionMapUv),y.push(T.thicknessMapUv),y.push(T.combine),y.push(T.fogExp2),y.push(T.sizeAttenuation),y.push(T.morphTargetsCount),y.push(T.numSunLights),y.push(T.numDirLights),y.push(T.numPointLights),y.push(T.numSpotLights),y.push(T.numSpotLightMaps),y.push(T.numHemiLights),y.push(T.numRectAreaLights),y.push(T.numSunLightShadows),y.push(T.numDirLightShadows),y.push(T.numPointLightShadows),y.push(T.numSpotLightShadows),y.push(T.numSpotLightShadowsWithMaps),y.push(T.numLightProbes),y.push(T.numLightProbeGrids),y.push(T.shadowMapType),y.push(T.toneMapping),y.push(T.numClippingPlanes),y.push(T.numClipIntersection),y.push(T.depthPacking)}function _(y,T){o.disableAll(),T.instancing&&o.enable(0),T.instancingColor&&o.enable(1),T.instancingMorph&&o.enable(2),T.matcap&&o.enable(3),T.envMap&&o.enable(4),T.normalMapObjectSpace&&o.enable(5),T.normalMapTangentSpace&&o.enable(6),T.clearcoat&&o.enable(7),T.iridescence&&o.enable(8),T.alphaTest&&o.enable(9),T.vertexColors&&o.enable(10),T.vertexAlphas&&o.enable(11),T.vertexUv1s&&o.enable(12),T.vertexUv2s&&o.enable(13),T.vertexUv3s&&o.enable(14),T.vertexTangents&&o.enable(15),T.anisotropy&&o.enable(16),T.alphaHash&&o.enable(17),T.batching&&o.enable(18),T.dispersion&&o.enable(19),T.retroreflection&&o.enable(24),T.diffuseRoughness&&o.enable(25),T.batchingColor&&o.enable(20),T.gradientMap&&o.enable(21),T.packedNormalMap&&o.enable(22),T.vertexNormals&&o.enable(23),y.push(o.mask),o.disableAll(),T.fog&&o.enable(0),T.useFog&&o.enable(1),T.flatShading&&o.enable(2),T.logarithmicDepthBuffer&&o.enable(3),T.reversedDepthBuffer&&o.enable(4),T.skinning&&o.enable(5),T.morphTargets&&o.enable(6),T.morphNormals&&o.enable(7),T.morphColors&&o.enable(8),T.premultipliedAlpha&&o.enable(9),T.shadowMapEnabled&&o.enable(10),T.doubleSided&&o.enable(11),T.flipSided&&o.enable(12),T.useDepthPacking&&o.enable(13),T.dithering&&o.enable(14),T.transmission&&o.enable(15),T.sheen&&o.enable(16),T.opaque&&o.enable(17),T.pointsUvs&&o.enable(18),T.decodeVideoTexture&&o.enable(19),T.decodeVideoTextureEmissive&&o.enable(20),T.alphaToCoverage&&o.enable(21),T.numLightProbeGrids>0&&o.enable(22),T.hasPositionAttribute&&o.enable(23),y.push(o.mask)}function b(y){let T=u[y.type],B;if(T){let N=fi[T];B=n_.clone(N.uniforms)}else B=y.uniforms;return B}function I(y,T){let B=h.get(T);return B!==void 0?++B.usedTimes:(B=new kT(i,T,y,s),c.push(B),h.set(T,B)),B}function A(y){if(--y.usedTimes===0){let T=c.indexOf(y);c[T]=c[c.length-1],c.pop(),h.delete(y.cacheKey),y.destroy()}}function C(y){a.remove(y)}function E(){a.dispose()}return{getParameters:m,getProgramCacheKey:S,getUniforms:b,acquireProgram:I,releaseProgram:A,releaseShaderCache:C,programs:c,dispose:E}}function VT(){let i=new WeakMap;function t(o){return i.has(o)}function e(o){let a=i.get(o);return a===void 0&&(a={},i.set(o,a)),a}function n(o){i.delete(o)}function s(o,a,l){i.get(o)[a]=l}function r(){i=new WeakMap}return{has:t,get:e,remove:n,update:s,dispose:r}}function HT(i,t){return i.groupOrder!==t.groupOrder?i.groupOrder-t.groupOrder:i.renderOrder!==t.renderOrder?i.renderOrder-t.renderOrder:i.material.id!==t.material.id?i.material.id-t.material.id:i.materialVariant!==t.materialVariant?i.materialVariant-t.materialVariant:i.z!==t.z?i.z-t.z:i.id-t.id}function S_(i,t){return i.groupOrder!==t.groupOrder?i.groupOrder-t.groupOrder:i.renderOrder!==t.renderOrder?i.renderOrder-t.renderOrder:i.z!==t.z?t.z-i.z:i.id-t.id}function b_(){let i=[],t=0,e=[],n=[],s=[];function r(){t=0,e.length=0,n.length=0,s.length=0}function o(u){let f=0;return u.isInstancedMesh&&(f+=2),u.isSkinnedMesh&&(f+=1),f}function a(u,f,m,S,g,_){let b=i[t];return b===void 0?(b={id:u.id,object:u,geometry:f,material:m,materialVariant:o(u),groupOrder:S,renderOrder:u.renderOrder,z:g,group:_},i[t]=b):(b.id=u.id,b.object=u,b.geometry=f,b.material=m,b.materialVariant=o(u),b.groupOrder=S,b.renderOrder=u.renderOrder,b.z=g,b.group=_),t++,b}function l(u,f,m,S,g,_,b){b.reversedDepth===!0&&(g=-g);let I=a(u,f,m,S,g,_);m.transmission>0?n.push(I):m.transparent===!0?s.push(I):e.push(I)}function c(u,f,m,S,g,_){let b=a(u,f,m,S,g,_);m.transmission>0?n.unshift(b):m.transparent===!0?s.unshift(b):e.unshift(b)}function h(u,f){e.length>1&&e.sort(u||HT),n.length>1&&n.sort(f||S_),s.length>1&&s.sort(f||S_)}function d(){for(let u=t,f=i.length;u<f;u++){let m=i[u];if(m.id===null)break;m.id=null,m.object=null,m.geometry=null,m.material=null,m.group=null}}return{opaque:e,transmissive:n,transparent:s,init:r,push:l,unshift:c,finish:d,sort:h}}function WT(){let i=new WeakMap;function t(n,s){let r=i.get(n),o;return r===void 0?(o=new b_,i.set(n,[o])):s>=r.length?(o=new b_,r.push(o)):o=r[s],o}function e(){i=new WeakMap}return{get:t,dispose:e}}function XT(){let i={};return{get:function(t){if(i[t.id]!==void 0)return i[t.id];let e;switch(t.type){case"SunLight":case"DirectionalLight":e={direction:new V,color:new ee};break;case"SpotLight":e={position:new V,direction:new V,color:new ee,distance:0,coneCos:0,penumbraCos:0,decay:0};break;case"PointLight":e={position:new V,color:new ee,distance:0,decay:0};break;case"HemisphereLight":e={direction:new V,skyColor:new ee,groundColor:new ee};break;case"RectAreaLight":e={color:new ee,position:new V,halfWidth:new V,halfHeight:new V};break}return i[t.id]=e,e}}}function $T(){let i={};return{get:function(t){if(i[t.id]!==void 0)return i[t.id];let e;switch(t.type){case"SunLight":case"DirectionalLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new ne};break;case"SpotLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new ne};break;case"PointLight":e={shadowIntensity:1,shadowBias:0,shadowNormalBias:0,shadowRadius:1,shadowMapSize:new ne,shadowCameraNear:1,shadowCameraFar:1e3};break}return i[t.id]=e,e}}}var qT=0;function YT(i,t){return(t.castShadow?2:0)-(i.castShadow?2:0)+(t.map?1:0)-(i.map?1:0)}function JT(i){let t=new XT,e=$T(),n={version:0,hash:{sunLength:-1,directionalLength:-1,pointLength:-1,spotLength:-1,rectAreaLength:-1,hemiLength:-1,numSunShadows:-1,numDirectionalShadows:-1,numPointShadows:-1,numSpotShadows:-1,numSpotMaps:-1,numLightProbes:-1},ambient:[0,0,0],probe:[],sun:[],sunShadow:[],sunShadowMap:[],sunShadowMatrix:[],sunShadowCascade:[],directional:[],directionalShadow:[],directionalShadowMap:[],directionalShadowMatrix:[],spot:[],spotLightMap:[],spotShadow:[],spotShadowMap:[],spotLightMatrix:[],rectArea:[],rectAreaLTC1:null,rectAreaLTC2:null,point:[],pointShadow:[],pointShadowMap:[],pointShadowMatrix:[],hemi:[],numSpotLightShadowsWithMaps:0,numLightProbes:0};for(let c=0;c<9;c++)n.probe.push(new V);let s=new V,r=new ye,o=new ye;function a(c){let h=0,d=0,u=0;for(let z=0;z<9;z++)n.probe[z].set(0,0,0);let f=0,m=0,S=0,g=0,_=0,b=0,I=0,A=0,C=0,E=0,y=0,T=0,B=0,N=0;c.sort(YT);for(let z=0,Y=c.length;z<Y;z++){let L=c[z],$=L.color,j=L.intensity,H=L.distance,rt=null;if(L.shadow&&L.shadow.map&&(L.shadow.map.texture.format===Zi?rt=L.shadow.map.texture:rt=L.shadow.map.depthTexture||L.shadow.map.texture),L.isAmbientLight)h+=$.r*j,d+=$.g*j,u+=$.b*j;else if(L.isLightProbe){for(let X=0;X<9;X++)n.probe[X].addScaledVector(L.sh.coefficients[X],j);N++}else if(L.isSunLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize.copy(tt.mapSize).multiply(tt.getFrameExtents()),n.sunShadow[m]=et,n.sunShadowMap[m]=rt;let Et=tt.getViewportCount();for(let Gt=0;Gt<Et;Gt++)n.sunShadowMatrix[S+Gt]=tt.getMatrix(Gt),n.sunShadowCascade[S+Gt]=tt._cascadeData[Gt];S+=Et,m++}n.sun[f]=X,f++}else if(L.isDirectionalLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,n.directionalShadow[g]=et,n.directionalShadowMap[g]=rt,n.directionalShadowMatrix[g]=L.shadow.matrix,C++}n.directional[g]=X,g++}else if(L.isSpotLight){let X=t.get(L);X.position.setFromMatrixPosition(L.matrixWorld),X.color.copy($).multiplyScalar(j),X.distance=H,X.coneCos=Math.cos(L.angle),X.penumbraCos=Math.cos(L.angle*(1-L.penumbra)),X.decay=L.decay,n.spot[b]=X;let tt=L.shadow;if(L.map&&(n.spotLightMap[T]=L.map,T++,tt.updateMatrices(L),L.castShadow&&B++),n.spotLightMatrix[b]=tt.matrix,L.castShadow){let et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,n.spotShadow[b]=et,n.spotShadowMap[b]=rt,y++}b++}else if(L.isRectAreaLight){let X=t.get(L);X.color.copy($).multiplyScalar(j),X.halfWidth.set(L.width*.5,0,0),X.halfHeight.set(0,L.height*.5,0),n.rectArea[I]=X,I++}else if(L.isPointLight){let X=t.get(L);if(X.color.copy(L.color).multiplyScalar(L.intensity),X.distance=L.distance,X.decay=L.decay,L.castShadow){let tt=L.shadow,et=e.get(L);et.shadowIntensity=tt.intensity,et.shadowBias=tt.bias,et.shadowNormalBias=tt.normalBias,et.shadowRadius=tt.radius,et.shadowMapSize=tt.mapSize,et.shadowCameraNear=tt.camera.near,et.shadowCameraFar=tt.camera.far,n.pointShadow[_]=et,n.pointShadowMap[_]=rt,n.pointShadowMatrix[_]=L.shadow.matrix,E++}n.point[_]=X,_++}else if(L.isHemisphereLight){let X=t.get(L);X.skyColor.copy(L.color).multiplyScalar(j),X.groundColor.copy(L.groundColor).multiplyScalar(j),n.hemi[A]=X,A++}}I>0&&(i.has("OES_texture_float_linear")===!0?(n.rectAreaLTC1=xt.LTC_FLOAT_1,n.rectAreaLTC2=xt.LTC_FLOAT_2):(n.rectAreaLTC1=xt.LTC_HALF_1,n.rectAreaLTC2=xt.LTC_HALF_2)),n.ambient[0]=h,n.ambient[1]=d,n.ambient[2]=u;let O=n.hash;(O.sunLength!==f||O.directionalLength!==g||O.pointLength!==_||O.spotLength!==b||O.rectAreaLength!==I||O.hemiLength!==A||O.numSunShadows!==m||O.numDirectionalShadows!==C||O.numPointShadows!==E||O.numSpotShadows!==y||O.numSpotMaps!==T||O.numLightProbes!==N)&&(n.sun.length=f,n.directional.length=g,n.spot.length=b,n.rectArea.length=I,n.point.length=_,n.hemi.length=A,n.sunShadow.length=m,n.sunShadowMap.length=m,n.sunShadowMatrix.length=S,n.sunShadowCascade.length=S,n.directionalShadow.length=C,n.directionalShadowMap.length=C,n.directionalShadowMatrix.length=C,n.pointShadow.length=E,n.pointShadowMap.length=E,n.pointShadowMatrix.length=E,n.spotShadow.length=y,n.spotShadowMap.length=y,n.spotLightMatrix.length=y+T-B,n.spotLightMap.length=T,n.numSpotLightShadowsWithMaps=B,n.numLightProbes=N,O.sunLength=f,O.directionalLength=g,O.pointLength=_,O.spotLength=b,O.rectAreaLength=I,O.hemiLength=A,O.numSunShadows=m,O.numDirectionalShadows=C,O.numPointShadows=E,O.numSpotShadows=y,O.numSpotMaps=T,O.numLightProbes=N,n.version=qT++)}function l(c,h){let d=0,u=0,f=0,m=0,S=0,g=0,_=h.matrixWorldInverse;for(let b=0,I=c.length;b<I;b++){let A=c[b];if(A.isSunLight){let C=n.sun[d];C.direction.setFromMatrixPosition(A.matrixWorld),C.direction.transformDirection(_),d++}else if(A.isDirectionalLight){let C=n.directional[u];C.direction.setFromMatrixPosition(A.matrixWorld),s.setFromMatrixPosition(A.target.matrixWorld),C.direction.sub(s),C.direction.transformDirection(_),u++}else if(A.isSpotLight){let C=n.spot[m];C.position.setFromMatrixPosition(A.matrixWorld),C.position.applyMatrix4(_),C.direction.setFromMatrixPosition(A.matrixWorld),s.setFromMatrixPosition(A.target.matrixWorld),C.direction.sub(s),C.direction.transformDirection(_),m++}else if(A.isRectAreaLight){let C=n.rectArea[S];C.position.setFromMatrixPosition(A.matrixWorld),C.position.applyMatrix4(_),o.identity(),r.copy(A.matrixWorld),r.premultiply(_),o.extractRotation(r),C.halfWidth.set(A.width*.5,0,0),C.halfHeight.set(0,A.height*.5,0),C.halfWidth.applyMatrix4(o),C.halfHeight.applyMatrix4(o),S++}else if(A.isPointLight){let C=n.point[f];C.position.setFromMatrixPosition(A.matrixWorld),C.position.applyMatrix4(_),f++}else if(A.isHemisphereLight){let C=n.hemi[g];C.direction.setFromMatrixPosition(A.matrixWorld),C.direction.transformDirection(_),g++}}}return{setup:a,setupView:l,state:n}}function w_(i){let t=new JT(i),e=[],n=[],s=[];function r(d){h.camera=d,e.length=0,n.length=0,s.length=0}function o(d){d.isLightProbeGrid?s.push(d):e.push(d)}function a(d){n.push(d)}function l(){t.setup(e),s.sort((d,u)=>d.priority-u.priority||d.id-u.id)}function c(d){t.setupView(e,d)}let h={lightsArray:e,shadowsArray:n,lightProbeGridArray:s,camera:null,lights:t,transmissionRenderTarget:{},textureUnits:0};return{init:r,state:h,setupLights:l,setupLightsView:c,pushLight:o,pushShadow:a}}function ZT(i){let t=new WeakMap;function e(s,r=0){let o=t.get(s),a;return o===void 0?(a=new w_(i),t.set(s,[a])):r>=o.length?(a=new w_(i),o.push(a)):a=o[r],a}function n(){t=new WeakMap}return{get:e,dispose:n}}var KT=`void main() {
	gl_Position = vec4( position, 1.0 );
}`,jT=`uniform sampler2D shadow_pass;
uniform vec2 resolution;
uniform float radius;
void main() {
	const float samples = float( VSM_SAMPLES );
	float mean = 0.0;
	float squared_mean = 0.0;
	float uvStride = samples <= 1.0 ? 0.0 : 2.0 / ( samples - 1.0 );
	float uvStart = samples <= 1.0 ? 0.0 : - 1.0;
	for ( float i = 0.0; i < samples; i ++ ) {
		float uvOffset = uvStart + i * uvStride;
		#ifdef HORIZONTAL_PASS
			vec2 distribution = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( uvOffset, 0.0 ) * radius ) / resolution ).rg;
			mean += distribution.x;
			squared_mean += distribution.y * distribution.y + distribution.x * distribution.x;
		#else
			float depth = texture2D( shadow_pass, ( gl_FragCoord.xy + vec2( 0.0, uvOffset ) * radius ) / resolution ).r;
			mean += depth;
			squared_mean += depth * depth;
		#endif
	}
	mean = mean / samples;
	squared_mean = squared_mean / samples;
	float std_dev = sqrt( max( 0.0, squared_mean - mean * mean ) );
	gl_FragColor = vec4( mean, std_dev, 0.0, 1.0 );
}`,QT=[new V(1,0,0),new V(-1,0,0),new V(0,1,0),new V(0,-1,0),new V(0,0,1),new V(0,0,-1)],tA=[new V(0,-1,0),new V(0,-1,0),new V(0,0,1),new V(0,0,-1),new V(0,-1,0),new V(0,-1,0)],T_=new ye,xo=new V,xd=new V;function eA(i,t,e){let n=new cs,s=new ne,r=new ne,o=new xe,a=new hl,l=new ul,c={},h=e.maxTextureSize,d={[hi]:ln,[ln]:hi,[Bn]:Bn},u=new ci({defines:{VSM_SAMPLES:8},uniforms:{shadow_pass:{value:null},resolution:{value:new ne},radius:{value:4}},vertexShader:KT,fragmentShader:jT}),f=u.clone();f.defines.HORIZONTAL_PASS=1;let m=new Zn;m.setAttribute("position",new qe(new Float32Array([-1,-1,.5,3,-1,.5,-1,3,.5]),3));let S=new kn(m,u),g=this;this.enabled=!1,this.autoUpdate=!0,this.needsUpdate=!1,this.type=ao;let _=this.type;this.render=function(E,y,T){if(g.enabled===!1||g.autoUpdate===!1&&g.needsUpdate===!1||E.length===0)return;this.type===y0&&(Ut("WebGLShadowMap: PCFSoftShadowMap has been removed. Using PCFShadowMap instead."),this.type=ao);let B=i.getRenderTarget(),N=i.getActiveCubeFace(),O=i.getActiveMipmapLevel(),z=i.state;z.setBlending(hs),z.buffers.depth.getReversed()===!0?z.buffers.color.setClear(0,0,0,0):z.buffers.color.setClear(1,1,1,1),z.buffers.depth.setTest(!0),z.setScissorTest(!1);let Y=_!==this.type;Y&&y.traverse(function(L){L.material&&(Array.isArray(L.material)?L.material.forEach($=>$.needsUpdate=!0):L.material.needsUpdate=!0)});for(let L=0,$=E.length;L<$;L++){let j=E[L],H=j.shadow;if(H===void 0){Ut("WebGLShadowMap:",j,"has no shadow.");continue}if(H.autoUpdate===!1&&H.needsUpdate===!1)continue;s.copy(H.mapSize);let rt=H.getFrameExtents();s.multiply(rt),r.copy(H.mapSize),(s.x>h||s.y>h)&&(s.x>h&&(r.x=Math.floor(h/rt.x),s.x=r.x*rt.x,H.mapSize.x=r.x),s.y>h&&(r.y=Math.floor(h/rt.y),s.y=r.y*rt.y,H.mapSize.y=r.y));let X=i.state.buffers.depth.getReversed();if(H.camera._reversedDepth=X,H.map===null||Y===!0){if(H.map!==null&&(H.map.depthTexture!==null&&(H.map.depthTexture.dispose(),H.map.depthTexture=null),H.map.dispose()),this.type===tr){if(j.isPointLight){Ut("WebGLShadowMap: VSM shadow maps are not supported for PointLights. Use PCF or BasicShadowMap instead.");continue}H.map=new vn(s.x,s.y,{format:Zi,type:Qn,minFilter:Ge,magFilter:Ge,generateMipmaps:!1}),H.map.texture.name=j.name+".shadowMap",H.map.depthTexture=new Ei(s.x,s.y,jn),H.map.depthTexture.name=j.name+".shadowMapDepth",H.map.depthTexture.format=Ai,H.map.depthTexture.compareFunction=null,H.map.depthTexture.minFilter=ze,H.map.depthTexture.magFilter=ze}else j.isPointLight?(H.map=new vo(s.x),H.map.depthTexture=new no(s.x,Kn)):(H.map=new vn(s.x,s.y),H.map.depthTexture=new Ei(s.x,s.y,Kn)),H.map.depthTexture.name=j.name+".shadowMap",H.map.depthTexture.format=Ai,this.type===ao?(H.map.depthTexture.compareFunction=X?sd:id,H.map.depthTexture.minFilter=Ge,H.map.depthTexture.magFilter=Ge):(H.map.depthTexture.compareFunction=null,H.map.depthTexture.minFilter=ze,H.map.depthTexture.magFilter=ze);H.camera.updateProjectionMatrix()}H.map.isWebGLCubeRenderTarget!==!0&&(H.map.width!==s.x||H.map.height!==s.y)&&H.map.setSize(s.x,s.y);let tt=H.map.isWebGLCubeRenderTarget?6:H.getViewportCount();j.isPointLight!==!0&&H.updateMatrices(j,T);let et=(H.camera.layers.mask&4294967294)!==0?H.camera.layers:T.layers;for(let Et=0;Et<tt;Et++){let Gt=H.getCamera(Et);if(j.isPointLight){let Z=H.camera,yt=H.matrix,wt=j.distance||Z.far;wt!==Z.far&&(Z.far=wt,Z.updateProjectionMatrix()),xo.setFromMatrixPosition(j.matrixWorld),Z.position.copy(xo),xd.copy(Z.position),xd.add(QT[Et]),Z.up.copy(tA[Et]),Z.lookAt(xd),Z.updateMatrixWorld(),yt.makeTranslation(-xo.x,-xo.y,-xo.z),T_.multiplyMatrices(Z.projectionMatrix,Z.matrixWorldInverse),H._frustum.setFromProjectionMatrix(T_,Z.coordinateSystem,Z.reversedDepth)}if(H.map.isWebGLCubeRenderTarget)i.setRenderTarget(H.map,Et),i.clear();else{Et===0&&(i.setRenderTarget(H.map),i.clear());let Z=H.getViewport(Et);o.set(r.x*Z.x,r.y*Z.y,r.x*Z.z,r.y*Z.w),z.viewport(o)}n=H.getFrustum(Et),A(y,T,Gt,j,et,this.type)}H.isPointLightShadow!==!0&&this.type===tr&&b(H,T),H.needsUpdate=!1}_=this.type,g.needsUpdate=!1,i.setRenderTarget(B,N,O)};function b(E,y){let T=t.update(S);u.defines.VSM_SAMPLES!==E.blurSamples&&(u.defines.VSM_SAMPLES=E.blurSamples,f.defines.VSM_SAMPLES=E.blurSamples,u.needsUpdate=!0,f.needsUpdate=!0),E.mapPass===null?E.mapPass=new vn(s.x,s.y,{format:Zi,type:Qn}):(E.mapPass.width!==E.map.width||E.mapPass.height!==E.map.height)&&E.mapPass.setSize(E.map.width,E.map.height),u.uniforms.shadow_pass.value=E.map.depthTexture,u.uniforms.resolution.value.set(E.map.width,E.map.height),u.uniforms.radius.value=E.radius,i.setRenderTarget(E.mapPass),i.clear(),i.renderBufferDirect(y,null,T,u,S,null),f.uniforms.shadow_pass.value=E.mapPass.texture,f.uniforms.resolution.value.set(E.map.width,E.map.height),f.uniforms.radius.value=E.radius,i.setRenderTarget(E.map),i.clear(),i.renderBufferDirect(y,null,T,f,S,null)}function I(E,y,T,B){let N=null,O=T.isPointLight===!0?E.customDistanceMaterial:E.customDepthMaterial;if(O!==void 0)N=O;else if(N=T.isPointLight===!0?l:a,i.localClippingEnabled&&y.clipShadows===!0&&Array.isArray(y.clippingPlanes)&&y.clippingPlanes.length!==0||y.displacementMap&&y.displacementScale!==0||y.alphaMap&&y.alphaTest>0||y.map&&y.alphaTest>0||y.alphaToCoverage===!0){let z=N.uuid,Y=y.uuid,L=c[z];L===void 0&&(L={},c[z]=L);let $=L[Y];$===void 0&&($=N.clone(),L[Y]=$,y.addEventListener("dispose",C)),N=$}if(N.visible=y.visible,N.wireframe=y.wireframe,B===tr?N.side=y.shadowSide!==null?y.shadowSide:y.side:N.side=y.shadowSide!==null?y.shadowSide:d[y.side],N.alphaMap=y.alphaMap,N.alphaTest=y.alphaToCoverage===!0?.5:y.alphaTest,N.map=y.map,N.clipShadows=y.clipShadows,N.clippingPlanes=y.clippingPlanes,N.clipIntersection=y.clipIntersection,N.displacementMap=y.displacementMap,N.displacementScale=y.displacementScale,N.displacementBias=y.displacementBias,N.wireframeLinewidth=y.wireframeLinewidth,N.linewidth=y.linewidth,T.isPointLight===!0&&N.isMeshDistanceMaterial===!0){let z=i.properties.get(N);z.light=T}return N}function A(E,y,T,B,N,O){if(E.visible===!1)return;if(E.layers.test(N)&&(E.isMesh||E.isLine||E.isPoints)&&(E.castShadow||E.receiveShadow&&O===tr)&&(!E.frustumCulled||E.intersectsFrustum(n))){E.modelViewMatrix.multiplyMatrices(T.matrixWorldInverse,E.matrixWorld);let L=t.update(E),$=E.material;if(Array.isArray($)){let j=L.groups;for(let H=0,rt=j.length;H<rt;H++){let X=j[H],tt=$[X.materialIndex];if(tt&&tt.visible){let et=I(E,tt,B,O);E.onBeforeShadow(i,E,y,T,L,et,X),i.renderBufferDirect(T,null,L,et,E,X),E.onAfterShadow(i,E,y,T,L,et,X)}}}else if($.visible){let j=I(E,$,B,O);E.onBeforeShadow(i,E,y,T,L,j,null),i.renderBufferDirect(T,null,L,j,E,null),E.onAfterShadow(i,E,y,T,L,j,null)}}let Y=E.children;for(let L=0,$=Y.length;L<$;L++)A(Y[L],y,T,B,N,O)}function C(E){E.target.removeEventListener("dispose",C);for(let T in c){let B=c[T],N=E.target.uuid;N in B&&(B[N].dispose(),delete B[N])}}}function nA(i,t){function e(){let R=!1,K=new xe,W=null,dt=new xe(0,0,0,0);return{setMask:function(at){W!==at&&!R&&(i.colorMask(at,at,at,at),W=at)},setLocked:function(at){R=at},setClear:function(at,ht,Pt,Xt,ot){ot===!0&&(at*=Xt,ht*=Xt,Pt*=Xt),K.set(at,ht,Pt,Xt),dt.equals(K)===!1&&(i.clearColor(at,ht,Pt,Xt),dt.copy(K))},reset:function(){R=!1,W=null,dt.set(-1,0,0,0)}}}function n(){let R=!1,K=!1,W=null,dt=null,at=null;return{setReversed:function(ht){if(K!==ht){let Pt=t.get("EXT_clip_control");ht?Pt.clipControlEXT(Pt.LOWER_LEFT_EXT,Pt.ZERO_TO_ONE_EXT):Pt.clipControlEXT(Pt.LOWER_LEFT_EXT,Pt.NEGATIVE_ONE_TO_ONE_EXT),K=ht;let Xt=at;at=null,this.setClear(Xt)}},getReversed:function(){return K},setTest:function(ht){ht?Mt(i.DEPTH_TEST):Ht(i.DEPTH_TEST)},setMask:function(ht){W!==ht&&!R&&(i.depthMask(ht),W=ht)},setFunc:function(ht){if(K&&(ht=Q0[ht]),dt!==ht){switch(ht){case qa:i.depthFunc(i.NEVER);break;case Ya:i.depthFunc(i.ALWAYS);break;case Ja:i.depthFunc(i.LESS);break;case Wi:i.depthFunc(i.LEQUAL);break;case Za:i.depthFunc(i.EQUAL);break;case Ka:i.depthFunc(i.GEQUAL);break;case ja:i.depthFunc(i.GREATER);break;case Qa:i.depthFunc(i.NOTEQUAL);break;default:i.depthFunc(i.LEQUAL)}dt=ht}},setLocked:function(ht){R=ht},setClear:function(ht){at!==ht&&(at=ht,K&&(ht=1-ht),i.clearDepth(ht))},reset:function(){R=!1,W=null,dt=null,at=null,K=!1}}}function s(){let R=!1,K=null,W=null,dt=null,at=null,ht=null,Pt=null,Xt=null,ot=null;return{setTest:function(Lt){R||(Lt?Mt(i.STENCIL_TEST):Ht(i.STENCIL_TEST))},setMask:function(Lt){K!==Lt&&!R&&(i.stencilMask(Lt),K=Lt)},setFunc:function(Lt,Wt,_t){(W!==Lt||dt!==Wt||at!==_t)&&(i.stencilFunc(Lt,Wt,_t),W=Lt,dt=Wt,at=_t)},setOp:function(Lt,Wt,_t){(ht!==Lt||Pt!==Wt||Xt!==_t)&&(i.stencilOp(Lt,Wt,_t),ht=Lt,Pt=Wt,Xt=_t)},setLocked:function(Lt){R=Lt},setClear:function(Lt){ot!==Lt&&(i.clearStencil(Lt),ot=Lt)},reset:function(){R=!1,K=null,W=null,dt=null,at=null,ht=null,Pt=null,Xt=null,ot=null}}}let r=new e,o=new n,a=new s,l={},c=new WeakMap,h={},d={},u={},f=new WeakMap,m=[],S=null,g=!1,_=null,b=null,I=null,A=null,C=null,E=null,y=null,T=new ee(0,0,0),B=0,N=!1,O=null,z=null,Y=null,L=null,$=null,j=i.getParameter(i.MAX_COMBINED_TEXTURE_IMAGE_UNITS),H=!1,rt=0,X=i.getParameter(i.VERSION);X.indexOf("WebGL")!==-1?(rt=parseFloat(/^WebGL (\d)/.exec(X)[1]),H=rt>=1):X.indexOf("OpenGL ES")!==-1&&(rt=parseFloat(/^OpenGL ES (\d)/.exec(X)[1]),H=rt>=2);let tt=null,et={},Et=i.getParameter(i.SCISSOR_BOX),Gt=i.getParameter(i.VIEWPORT),Z=new xe().fromArray(Et),yt=new xe().fromArray(Gt);function wt(R,K,W,dt){let at=new Uint8Array(4),ht=i.createTexture();i.bindTexture(R,ht),i.texParameteri(R,i.TEXTURE_MIN_FILTER,i.NEAREST),i.texParameteri(R,i.TEXTURE_MAG_FILTER,i.NEAREST);for(let Pt=0;Pt<W;Pt++)R===i.TEXTURE_3D||R===i.TEXTURE_2D_ARRAY?i.texImage3D(K,0,i.RGBA,1,1,dt,0,i.RGBA,i.UNSIGNED_BYTE,at):i.texImage2D(K+Pt,0,i.RGBA,1,1,0,i.RGBA,i.UNSIGNED_BYTE,at);return ht}let Nt={};Nt[i.TEXTURE_2D]=wt(i.TEXTURE_2D,i.TEXTURE_2D,1),Nt[i.TEXTURE_CUBE_MAP]=wt(i.TEXTURE_CUBE_MAP,i.TEXTURE_CUBE_MAP_POSITIVE_X,6),Nt[i.TEXTURE_2D_ARRAY]=wt(i.TEXTURE_2D_ARRAY,i.TEXTURE_2D_ARRAY,1,1),Nt[i.TEXTURE_3D]=wt(i.TEXTURE_3D,i.TEXTURE_3D,1,1),r.setClear(0,0,0,1),o.setClear(1),a.setClear(0),Mt(i.DEPTH_TEST),o.setFunc(Wi),cn(!1),me(Du),Mt(i.CULL_FACE),Ve(hs);function Mt(R){h[R]!==!0&&(i.enable(R),h[R]=!0)}function Ht(R){h[R]!==!1&&(i.disable(R),h[R]=!1)}function we(R,K){return u[R]!==K?(i.bindFramebuffer(R,K),u[R]=K,R===i.DRAW_FRAMEBUFFER&&(u[i.FRAMEBUFFER]=K),R===i.FRAMEBUFFER&&(u[i.DRAW_FRAMEBUFFER]=K),!0):!1}function Ot(R,K){let W=m,dt=!1;if(R){W=f.get(K),W===void 0&&(W=[],f.set(K,W));let at=R.textures;if(W.length!==at.length||W[0]!==i.COLOR_ATTACHMENT0){for(let ht=0,Pt=at.length;ht<Pt;ht++)W[ht]=i.COLOR_ATTACHMENT0+ht;W.length=at.length,dt=!0}}else W[0]!==i.BACK&&(W[0]=i.BACK,dt=!0);dt&&i.drawBuffers(W)}function re(R){return S!==R?(i.useProgram(R),S=R,!0):!1}let ae={[us]:i.FUNC_ADD,[M0]:i.FUNC_SUBTRACT,[S0]:i.FUNC_REVERSE_SUBTRACT};ae[b0]=i.MIN,ae[w0]=i.MAX;let Yt={[T0]:i.ZERO,[A0]:i.ONE,[E0]:i.SRC_COLOR,[ku]:i.SRC_ALPHA,[N0]:i.SRC_ALPHA_SATURATE,[P0]:i.DST_COLOR,[R0]:i.DST_ALPHA,[C0]:i.ONE_MINUS_SRC_COLOR,[Bu]:i.ONE_MINUS_SRC_ALPHA,[L0]:i.ONE_MINUS_DST_COLOR,[I0]:i.ONE_MINUS_DST_ALPHA,[D0]:i.CONSTANT_COLOR,[O0]:i.ONE_MINUS_CONSTANT_COLOR,[U0]:i.CONSTANT_ALPHA,[F0]:i.ONE_MINUS_CONSTANT_ALPHA};function Ve(R,K,W,dt,at,ht,Pt,Xt,ot,Lt){if(R===hs){g===!0&&(Ht(i.BLEND),g=!1);return}if(g===!1&&(Mt(i.BLEND),g=!0),R!==v0){if(R!==_||Lt!==N){if((b!==us||C!==us)&&(i.blendEquation(i.FUNC_ADD),b=us,C=us),Lt)switch(R){case er:i.blendFuncSeparate(i.ONE,i.ONE_MINUS_SRC_ALPHA,i.ONE,i.ONE_MINUS_SRC_ALPHA);break;case Ou:i.blendFunc(i.ONE,i.ONE);break;case Uu:i.blendFuncSeparate(i.ZERO,i.ONE_MINUS_SRC_COLOR,i.ZERO,i.ONE);break;case Fu:i.blendFuncSeparate(i.DST_COLOR,i.ONE_MINUS_SRC_ALPHA,i.ZERO,i.ONE);break;default:Ft("WebGLState: Invalid blending: ",R);break}else switch(R){case er:i.blendFuncSeparate(i.SRC_ALPHA,i.ONE_MINUS_SRC_ALPHA,i.ONE,i.ONE_MINUS_SRC_ALPHA);break;case Ou:i.blendFuncSeparate(i.SRC_ALPHA,i.ONE,i.ONE,i.ONE);break;case Uu:Ft("WebGLState: SubtractiveBlending requires material.premultipliedAlpha = true");break;case Fu:Ft("WebGLState: MultiplyBlending requires material.premultipliedAlpha = true");break;default:Ft("WebGLState: Invalid blending: ",R);break}I=null,A=null,E=null,y=null,T.set(0,0,0),B=0,_=R,N=Lt}return}at=at||K,ht=ht||W,Pt=Pt||dt,(K!==b||at!==C)&&(i.blendEquationSeparate(ae[K],ae[at]),b=K,C=at),(W!==I||dt!==A||ht!==E||Pt!==y)&&(i.blendFuncSeparate(Yt[W],Yt[dt],Yt[ht],Yt[Pt]),I=W,A=dt,E=ht,y=Pt),(Xt.equals(T)===!1||ot!==B)&&(i.blendColor(Xt.r,Xt.g,Xt.b,ot),T.copy(Xt),B=ot),_=R,N=!1}function Ie(R,K){R.side===Bn?Ht(i.CULL_FACE):Mt(i.CULL_FACE);let W=R.side===ln;K&&(W=!W),cn(W),R.blending===er&&R.transparent===!1?Ve(hs):Ve(R.blending,R.blendEquation,R.blendSrc,R.blendDst,R.blendEquationAlpha,R.blendSrcAlpha,R.blendDstAlpha,R.blendColor,R.blendAlpha,R.premultipliedAlpha),o.setFunc(R.depthFunc),o.setTest(R.depthTest),o.setMask(R.depthWrite),r.setMask(R.colorWrite);let dt=R.stencilWrite;a.setTest(dt),dt&&(a.setMask(R.stencilWriteMask),a.setFunc(R.stencilFunc,R.stencilRef,R.stencilFuncMask),a.setOp(R.stencilFail,R.stencilZFail,R.stencilZPass)),Oe(R.polygonOffset,R.polygonOffsetFactor,R.polygonOffsetUnits),R.alphaToCoverage===!0?Mt(i.SAMPLE_ALPHA_TO_COVERAGE):Ht(i.SAMPLE_ALPHA_TO_COVERAGE)}function cn(R){O!==R&&(R?i.frontFace(i.CW):i.frontFace(i.CCW),O=R)}function me(R){R!==_0?(Mt(i.CULL_FACE),R!==z&&(R===Du?i.cullFace(i.BACK):R===x0?i.cullFace(i.FRONT):i.cullFace(i.FRONT_AND_BACK))):Ht(i.CULL_FACE),z=R}function ti(R){R!==Y&&(H&&i.lineWidth(R),Y=R)}function Oe(R,K,W){R?(Mt(i.POLYGON_OFFSET_FILL),(L!==K||$!==W)&&(L=K,$=W,o.getReversed()&&(K=-K,W=-W),i.polygonOffset(K,W))):Ht(i.POLYGON_OFFSET_FILL)}function wn(R){R?Mt(i.SCISSOR_TEST):Ht(i.SCISSOR_TEST)}function Tn(R){R===void 0&&(R=i.TEXTURE0+j-1),tt!==R&&(i.activeTexture(R),tt=R)}function An(R,K,W){W===void 0&&(tt===null?W=i.TEXTURE0+j-1:W=tt);let dt=et[W];dt===void 0&&(dt={type:void 0,texture:void 0},et[W]=dt),(dt.type!==R||dt.texture!==K)&&(tt!==W&&(i.activeTexture(W),tt=W),i.bindTexture(R,K||Nt[R]),dt.type=R,dt.texture=K)}function D(){let R=et[tt];R!==void 0&&R.type!==void 0&&(i.bindTexture(R.type,null),R.type=void 0,R.texture=void 0)}function En(){try{i.compressedTexImage2D(...arguments)}catch(R){Ft("WebGLState:",R)}}function fe(){try{i.compressedTexImage3D(...arguments)}catch(R){Ft("WebGLState:",R)}}function pe(){try{i.texSubImage2D(...arguments)}catch(R){Ft("WebGLState:",R)}}function gt(){try{i.texSubImage3D(...arguments)}catch(R){Ft("WebGLState:",R)}}function Pe(){try{i.compressedTexSubImage2D(...arguments)}catch(R){Ft("WebGLState:",R)}}function Dt(){try{i.compressedTexSubImage3D(...arguments)}catch(R){Ft("WebGLState:",R)}}function zt(){try{i.texStorage2D(...arguments)}catch(R){Ft("WebGLState:",R)}}function w(){try{i.texStorage3D(...arguments)}catch(R){Ft("WebGLState:",R)}}function v(){try{i.texImage2D(...arguments)}catch(R){Ft("WebGLState:",R)}}function F(){try{i.texImage3D(...arguments)}catch(R){Ft("WebGLState:",R)}}function it(R){return d[R]!==void 0?d[R]:i.getParameter(R)}function Q(R,K){d[R]!==K&&(i.pixelStorei(R,K),d[R]=K)}function ct(R){Z.equals(R)===!1&&(i.scissor(R.x,R.y,R.z,R.w),Z.copy(R))}function pt(R){yt.equals(R)===!1&&(i.viewport(R.x,R.y,R.z,R.w),yt.copy(R))}function q(R,K){let W=c.get(K);W===void 0&&(W=new WeakMap,c.set(K,W));let dt=W.get(R);dt===void 0&&(dt=i.getUniformBlockIndex(K,R.name),i.uniformBlockBinding(K,dt,dt),W.set(R,dt))}function J(R,K,W){let at=c.get(K).get(R);l[at]!==W&&(i.bindBufferBase(i.UNIFORM_BUFFER,at,W),l[at]=W)}function ut(){i.disable(i.BLEND),i.disable(i.CULL_FACE),i.disable(i.DEPTH_TEST),i.disable(i.POLYGON_OFFSET_FILL),i.disable(i.SCISSOR_TEST),i.disable(i.STENCIL_TEST),i.disable(i.SAMPLE_ALPHA_TO_COVERAGE),i.blendEquation(i.FUNC_ADD),i.blendFunc(i.ONE,i.ZERO),i.blendFuncSeparate(i.ONE,i.ZERO,i.ONE,i.ZERO),i.blendColor(0,0,0,0),i.colorMask(!0,!0,!0,!0),i.clearColor(0,0,0,0),i.depthMask(!0),i.depthFunc(i.LESS),o.setReversed(!1),i.clearDepth(1),i.stencilMask(4294967295),i.stencilFunc(i.ALWAYS,0,4294967295),i.stencilOp(i.KEEP,i.KEEP,i.KEEP),i.clearStencil(0),i.cullFace(i.BACK),i.frontFace(i.CCW),i.polygonOffset(0,0),i.activeTexture(i.TEXTURE0),i.bindFramebuffer(i.FRAMEBUFFER,null),i.bindFramebuffer(i.DRAW_FRAMEBUFFER,null),i.bindFramebuffer(i.READ_FRAMEBUFFER,null),i.useProgram(null),i.lineWidth(1),i.scissor(0,0,i.canvas.width,i.canvas.height),i.viewport(0,0,i.canvas.width,i.canvas.height),i.pixelStorei(i.PACK_ALIGNMENT,4),i.pixelStorei(i.UNPACK_ALIGNMENT,4),i.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,!1),i.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,!1),i.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,i.BROWSER_DEFAULT_WEBGL),i.pixelStorei(i.PACK_ROW_LENGTH,0),i.pixelStorei(i.PACK_SKIP_PIXELS,0),i.pixelStorei(i.PACK_SKIP_ROWS,0),i.pixelStorei(i.UNPACK_ROW_LENGTH,0),i.pixelStorei(i.UNPACK_IMAGE_HEIGHT,0),i.pixelStorei(i.UNPACK_SKIP_PIXELS,0),i.pixelStorei(i.UNPACK_SKIP_ROWS,0),i.pixelStorei(i.UNPACK_SKIP_IMAGES,0),h={},d={},tt=null,et={},u={},l={},f=new WeakMap,m=[],S=null,g=!1,_=null,b=null,I=null,A=null,C=null,E=null,y=null,T=new ee(0,0,0),B=0,N=!1,O=null,z=null,Y=null,L=null,$=null,Z.set(0,0,i.canvas.width,i.canvas.height),yt.set(0,0,i.canvas.width,i.canvas.height),r.reset(),o.reset(),a.reset()}return{buffers:{color:r,depth:o,stencil:a},enable:Mt,disable:Ht,bindFramebuffer:we,drawBuffers:Ot,useProgram:re,setBlending:Ve,setMaterial:Ie,setFlipSided:cn,setCullFace:me,setLineWidth:ti,setPolygonOffset:Oe,setScissorTest:wn,activeTexture:Tn,bindTexture:An,unbindTexture:D,compressedTexImage2D:En,compressedTexImage3D:fe,texImage2D:v,texImage3D:F,pixelStorei:Q,getParameter:it,updateUBOMapping:q,uniformBlockBinding:J,texStorage2D:zt,texStorage3D:w,texSubImage2D:pe,texSubImage3D:gt,compressedTexSubImage2D:Pe,compressedTexSubImage3D:Dt,scissor:ct,viewport:pt,reset:ut}}function iA(i,t,e,n,s,r,o){let a=t.has("WEBGL_multisampled_render_to_texture")?t.get("WEBGL_multisampled_render_to_texture"):null,l=typeof navigator>"u"?!1:/OculusBrowser/g.test(navigator.userAgent),c=new ne,h=new WeakMap,d=new Set,u,f=new WeakMap,m=new Set,S=new FinalizationRegistry(w=>m.delete(w)),g=!1;try{g=typeof OffscreenCanvas<"u"&&new OffscreenCanvas(1,1).getContext("2d")!==null}catch{}function _(w,v){return g?new OffscreenCanvas(w,v):Jr("canvas")}function b(w,v,F){let it=1,Q=zt(w);if((Q.width>F||Q.height>F)&&(it=F/Math.max(Q.width,Q.height)),it<1)if(typeof HTMLImageElement<"u"&&w instanceof HTMLImageElement||typeof HTMLCanvasElement<"u"&&w instanceof HTMLCanvasElement||typeof ImageBitmap<"u"&&w instanceof ImageBitmap||typeof VideoFrame<"u"&&w instanceof VideoFrame){let ct=Math.floor(it*Q.width),pt=Math.floor(it*Q.height);u===void 0&&(u=_(ct,pt));let q=v?_(ct,pt):u;return q.width=ct,q.height=pt,q.getContext("2d").drawImage(w,0,0,ct,pt),Ut("WebGLRenderer: Texture has been resized from ("+Q.width+"x"+Q.height+") to ("+ct+"x"+pt+")."),q}else return"data"in w&&Ut("WebGLRenderer: Image in DataTexture is too big ("+Q.width+"x"+Q.height+")."),w;return w}function I(w){return w.generateMipmaps}function A(w){i.generateMipmap(w)}function C(w){return w.isWebGLCubeRenderTarget?i.TEXTURE_CUBE_MAP:w.isWebGL3DRenderTarget?i.TEXTURE_3D:w.isWebGLArrayRenderTarget||w.isCompressedArrayTexture?i.TEXTURE_2D_ARRAY:i.TEXTURE_2D}function E(w,v,F,it,Q,ct=!1){if(w!==null){if(i[w]!==void 0)return i[w];Ut("WebGLRenderer: Attempt to use non-existing WebGL internal format '"+w+"'")}let pt;it&&(pt=t.get("EXT_texture_norm16"),pt||Ut("WebGLRenderer: Unable to use normalized textures without EXT_texture_norm16 extension"));let q=v;if(v===i.RED&&(F===i.FLOAT&&(q=i.R32F),F===i.HALF_FLOAT&&(q=i.R16F),F===i.UNSIGNED_BYTE&&(q=i.R8),F===i.UNSIGNED_SHORT&&pt&&(q=pt.R16_EXT),F===i.SHORT&&pt&&(q=pt.R16_SNORM_EXT)),v===i.RED_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.R8UI),F===i.UNSIGNED_SHORT&&(q=i.R16UI),F===i.UNSIGNED_INT&&(q=i.R32UI),F===i.BYTE&&(q=i.R8I),F===i.SHORT&&(q=i.R16I),F===i.INT&&(q=i.R32I)),v===i.RG&&(F===i.FLOAT&&(q=i.RG32F),F===i.HALF_FLOAT&&(q=i.RG16F),F===i.UNSIGNED_BYTE&&(q=i.RG8),F===i.UNSIGNED_SHORT&&pt&&(q=pt.RG16_EXT),F===i.SHORT&&pt&&(q=pt.RG16_SNORM_EXT)),v===i.RG_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RG8UI),F===i.UNSIGNED_SHORT&&(q=i.RG16UI),F===i.UNSIGNED_INT&&(q=i.RG32UI),F===i.BYTE&&(q=i.RG8I),F===i.SHORT&&(q=i.RG16I),F===i.INT&&(q=i.RG32I)),v===i.RGB_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RGB8UI),F===i.UNSIGNED_SHORT&&(q=i.RGB16UI),F===i.UNSIGNED_INT&&(q=i.RGB32UI),F===i.BYTE&&(q=i.RGB8I),F===i.SHORT&&(q=i.RGB16I),F===i.INT&&(q=i.RGB32I)),v===i.RGBA_INTEGER&&(F===i.UNSIGNED_BYTE&&(q=i.RGBA8UI),F===i.UNSIGNED_SHORT&&(q=i.RGBA16UI),F===i.UNSIGNED_INT&&(q=i.RGBA32UI),F===i.BYTE&&(q=i.RGBA8I),F===i.SHORT&&(q=i.RGBA16I),F===i.INT&&(q=i.RGBA32I)),v===i.RGB&&(F===i.UNSIGNED_SHORT&&pt&&(q=pt.RGB16_EXT),F===i.SHORT&&pt&&(q=pt.RGB16_SNORM_EXT),F===i.UNSIGNED_INT_5_9_9_9_REV&&(q=i.RGB9_E5),F===i.UNSIGNED_INT_10F_11F_11F_REV&&(q=i.R11F_G11F_B10F)),v===i.RGBA){let J=ct?qr:Kt.getTransfer(Q);F===i.FLOAT&&(q=i.RGBA32F),F===i.HALF_FLOAT&&(q=i.RGBA16F),F===i.UNSIGNED_BYTE&&(q=J===se?i.SRGB8_ALPHA8:i.RGBA8),F===i.UNSIGNED_SHORT&&pt&&(q=pt.RGBA16_EXT),F===i.SHORT&&pt&&(q=pt.RGBA16_SNORM_EXT),F===i.UNSIGNED_SHORT_4_4_4_4&&(q=i.RGBA4),F===i.UNSIGNED_SHORT_5_5_5_1&&(q=i.RGB5_A1)}return(q===i.R16F||q===i.R32F||q===i.RG16F||q===i.RG32F||q===i.RGBA16F||q===i.RGBA32F)&&t.get("EXT_color_buffer_float"),q}function y(w,v){let F;return w?v===null||v===Kn||v===fs?F=i.DEPTH24_STENCIL8:v===jn?F=i.DEPTH32F_STENCIL8:v===ir&&(F=i.DEPTH24_STENCIL8,Ut("DepthTexture: 16 bit depth attachment is not supported with stencil. Using 24-bit attachment.")):v===null||v===Kn||v===fs?F=i.DEPTH_COMPONENT24:v===jn?F=i.DEPTH_COMPONENT32F:v===ir&&(F=i.DEPTH_COMPONENT16),F}function T(w,v){return I(w)===!0||w.isFramebufferTexture&&w.minFilter!==ze&&w.minFilter!==Ge?Math.log2(Math.max(v.width,v.height))+1:w.mipmaps.length>0?w.mipmaps.length:w.isCompressedTexture&&Array.isArray(w.image)?v.mipmaps.length:1}function B(w){let v=new WeakRef(w);n.get(w).__ref=v,m.add(v),S.register(w,v,v)}function N(w){let v=n.get(w).__ref;v!==void 0&&(m.delete(v),S.unregister(v))}function O(w){Y(w.target)}function z(w){L(w.target)}function Y(w){w.removeEventListener("dispose",O),N(w),j(w),w.isVideoTexture&&h.delete(w),w.isHTMLTexture&&d.delete(w)}function L(w){w.removeEventListener("dispose",z),N(w),rt(w)}function $(){for(let w of m){let v=w.deref();v!==void 0&&(v.isRenderTarget===!0?L(v):Y(v))}m.clear(),d.clear()}function j(w){let v=n.get(w);if(v.__webglInit===void 0)return;let F=w.source,it=f.get(F);if(it){let Q=it[v.__cacheKey];Q.usedTimes--,Q.usedTimes===0&&H(w),Object.keys(it).length===0&&f.delete(F)}n.remove(w)}function H(w){let v=n.get(w);i.deleteTexture(v.__webglTexture);let F=w.source,it=f.get(F);delete it[v.__cacheKey],o.memory.textures--}function rt(w){let v=n.get(w);v.__depthDisposeCallback&&v.__depthDisposeCallback();let F=w.depthTexture;if(F&&F.renderTarget===w&&Y(F),w.isWebGLCubeRenderTarget)for(let Q=0;Q<6;Q++){if(Array.isArray(v.__webglFramebuffer[Q]))for(let ct=0;ct<v.__webglFramebuffer[Q].length;ct++)i.deleteFramebuffer(v.__webglFramebuffer[Q][ct]);else i.deleteFramebuffer(v.__webglFramebuffer[Q]);v.__webglDepthbuffer&&i.deleteRenderbuffer(v.__webglDepthbuffer[Q])}else{if(Array.isArray(v.__webglFramebuffer))for(let Q=0;Q<v.__webglFramebuffer.length;Q++)i.deleteFramebuffer(v.__webglFramebuffer[Q]);else i.deleteFramebuffer(v.__webglFramebuffer);if(v.__webglDepthbuffer&&i.deleteRenderbuffer(v.__webglDepthbuffer),v.__webglMultisampledFramebuffer&&i.deleteFramebuffer(v.__webglMultisampledFramebuffer),v.__webglColorRenderbuffer)for(let Q=0;Q<v.__webglColorRenderbuffer.length;Q++)v.__webglColorRenderbuffer[Q]&&i.deleteRenderbuffer(v.__webglColorRenderbuffer[Q]);v.__webglDepthRenderbuffer&&i.deleteRenderbuffer(v.__webglDepthRenderbuffer)}let it=w.textures;for(let Q=0,ct=it.length;Q<ct;Q++){let pt=n.get(it[Q]);pt.__webglTexture&&(i.deleteTexture(pt.__webglTexture),o.memory.textures--),n.remove(it[Q])}n.remove(w)}let X=0;function tt(){X=0}function et(){return X}function Et(w){X=w}function Gt(){let w=X;return w>=s.maxTextures&&Ut("WebGLTextures: Trying to use "+(w+1)+" texture units while this GPU supports only "+s.maxTextures),X+=1,w}function Z(w){let v=[];return v.push(w.wrapS),v.push(w.wrapT),v.push(w.wrapR||0),v.push(w.magFilter),v.push(w.minFilter),v.push(w.anisotropy),v.push(w.internalFormat),v.push(w.format),v.push(w.type),v.push(w.generateMipmaps),v.push(w.mipmapsAutoUpdate),v.push(w.premultiplyAlpha),v.push(w.flipY),v.push(w.unpackAlignment),v.push(w.colorSpace),v.join()}function yt(w,v){let F=n.get(w);if(w.isVideoTexture&&Pe(w),w.isRenderTargetTexture===!1&&w.isExternalTexture!==!0&&w.version>0&&F.__version!==w.version){let it=w.image;if(it===null)Ut("WebGLRenderer: Texture marked for update but no image data found.");else if(it.complete===!1)Ut("WebGLRenderer: Texture marked for update but image is incomplete");else{Ie(F,w,v);return}}else w.isExternalTexture&&(F.__webglTexture=w.sourceTexture?w.sourceTexture:null);e.bindTexture(i.TEXTURE_2D,F.__webglTexture,i.TEXTURE0+v)}function wt(w,v){let F=n.get(w);if(w.isRenderTargetTexture===!1&&w.version>0&&F.__version!==w.version){Ie(F,w,v);return}else w.isExternalTexture&&(F.__webglTexture=w.sourceTexture?w.sourceTexture:null);e.bindTexture(i.TEXTURE_2D_ARRAY,F.__webglTexture,i.TEXTURE0+v)}function Nt(w,v){let F=n.get(w);if(w.isRenderTargetTexture===!1&&w.version>0&&F.__version!==w.version){Ie(F,w,v);return}e.bindTexture(i.TEXTURE_3D,F.__webglTexture,i.TEXTURE0+v)}function Mt(w,v){let F=n.get(w);if(w.version>0&&F.__version!==w.version){cn(F,w,v);return}e.bindTexture(i.TEXTURE_CUBE_MAP,F.__webglTexture,i.TEXTURE0+v)}let Ht={[tl]:i.REPEAT,[oi]:i.CLAMP_TO_EDGE,[el]:i.MIRRORED_REPEAT},we={[ze]:i.NEAREST,[z0]:i.NEAREST_MIPMAP_NEAREST,[lo]:i.NEAREST_MIPMAP_LINEAR,[Ge]:i.LINEAR,[Al]:i.LINEAR_MIPMAP_NEAREST,[Ci]:i.LINEAR_MIPMAP_LINEAR},Ot={[W0]:i.NEVER,[rd]:i.ALWAYS,[X0]:i.LESS,[id]:i.LEQUAL,[$0]:i.EQUAL,[sd]:i.GEQUAL,[q0]:i.GREATER,[Y0]:i.NOTEQUAL};function re(w,v){if(v.type===jn&&t.has("OES_texture_float_linear")===!1&&(v.magFilter===Ge||v.magFilter===Al||v.magFilter===lo||v.magFilter===Ci||v.minFilter===Ge||v.minFilter===Al||v.minFilter===lo||v.minFilter===Ci)&&Ut("WebGLRenderer: Unable to use linear filtering with floating point textures. OES_texture_float_linear not supported on this device."),i.texParameteri(w,i.TEXTURE_WRAP_S,Ht[v.wrapS]),i.texParameteri(w,i.TEXTURE_WRAP_T,Ht[v.wrapT]),(w===i.TEXTURE_3D||w===i.TEXTURE_2D_ARRAY)&&i.texParameteri(w,i.TEXTURE_WRAP_R,Ht[v.wrapR]),i.texParameteri(w,i.TEXTURE_MAG_FILTER,we[v.magFilter]),i.texParameteri(w,i.TEXTURE_MIN_FILTER,we[v.minFilter]),v.compareFunction&&(i.texParameteri(w,i.TEXTURE_COMPARE_MODE,i.COMPARE_REF_TO_TEXTURE),i.texParameteri(w,i.TEXTURE_COMPARE_FUNC,Ot[v.compareFunction])),t.has("EXT_texture_filter_anisotropic")===!0){if(v.magFilter===ze||v.minFilter!==lo&&v.minFilter!==Ci||v.type===jn&&t.has("OES_texture_float_linear")===!1)return;if(v.anisotropy>1||n.get(v).__currentAnisotropy){let F=t.get("EXT_texture_filter_anisotropic");i.texParameterf(w,F.TEXTURE_MAX_ANISOTROPY_EXT,Math.min(v.anisotropy,s.getMaxAnisotropy())),n.get(v).__currentAnisotropy=v.anisotropy}}}function ae(w,v){let F=!1;w.__webglInit===void 0&&(w.__webglInit=!0,v.addEventListener("dispose",O),B(v));let it=v.source,Q=f.get(it);Q===void 0&&(Q={},f.set(it,Q));let ct=Z(v);if(ct!==w.__cacheKey){Q[ct]===void 0&&(Q[ct]={texture:i.createTexture(),usedTimes:0},o.memory.textures++,F=!0),Q[ct].usedTimes++;let pt=Q[w.__cacheKey];pt!==void 0&&(Q[w.__cacheKey].usedTimes--,pt.usedTimes===0&&H(v)),w.__cacheKey=ct,w.__webglTexture=Q[ct].texture}return F}function Yt(w,v,F){return Math.floor(Math.floor(w/F)/v)}function Ve(w,v,F,it){let ct=w.updateRanges;if(ct.length===0)e.texSubImage2D(i.TEXTURE_2D,0,0,0,v.width,v.height,F,it,v.data);else{ct.sort((R,K)=>R.start-K.start);let pt=0;for(let R=1;R<ct.length;R++){let K=ct[pt],W=ct[R],dt=K.start+K.count,at=Yt(W.start,v.width,4),ht=Yt(K.start,v.width,4);W.start<=dt+1&&at===ht&&Yt(W.start+W.count-1,v.width,4)===at?K.count=Math.max(K.count,W.start+W.count-K.start):(++pt,ct[pt]=W)}ct.length=pt+1;let q=e.getParameter(i.UNPACK_ROW_LENGTH),J=e.getParameter(i.UNPACK_SKIP_PIXELS),ut=e.getParameter(i.UNPACK_SKIP_ROWS);e.pixelStorei(i.UNPACK_ROW_LENGTH,v.width);for(let R=0,K=ct.length;R<K;R++){let W=ct[R],dt=Math.floor(W.start/4),at=Math.ceil(W.count/4),ht=dt%v.width,Pt=Math.floor(dt/v.width),Xt=at,ot=1;e.pixelStorei(i.UNPACK_SKIP_PIXELS,ht),e.pixelStorei(i.UNPACK_SKIP_ROWS,Pt),e.texSubImage2D(i.TEXTURE_2D,0,ht,Pt,Xt,ot,F,it,v.data)}w.clearUpdateRanges(),e.pixelStorei(i.UNPACK_ROW_LENGTH,q),e.pixelStorei(i.UNPACK_SKIP_PIXELS,J),e.pixelStorei(i.UNPACK_SKIP_ROWS,ut)}}function Ie(w,v,F){let it=i.TEXTURE_2D;(v.isDataArrayTexture||v.isCompressedArrayTexture)&&(it=i.TEXTURE_2D_ARRAY),v.isData3DTexture&&(it=i.TEXTURE_3D);let Q=ae(w,v),ct=v.source;e.bindTexture(it,w.__webglTexture,i.TEXTURE0+F);let pt=n.get(ct);if(ct.version!==pt.__version||Q===!0){if(e.activeTexture(i.TEXTURE0+F),(typeof ImageBitmap<"u"&&v.image instanceof ImageBitmap)===!1){let ot=Kt.getPrimaries(Kt.workingColorSpace),Lt=v.colorSpace===Ii?null:Kt.getPrimaries(v.colorSpace),Wt=v.colorSpace===Ii||ot===Lt?i.NONE:i.BROWSER_DEFAULT_WEBGL;e.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,v.flipY),e.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,v.premultiplyAlpha),e.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,Wt)}e.pixelStorei(i.UNPACK_ALIGNMENT,v.unpackAlignment);let J=b(v.image,!1,s.maxTextureSize);J=Dt(v,J);let ut=r.convert(v.format,v.colorSpace),R=r.convert(v.type),K=E(v.internalFormat,ut,R,v.normalized,v.colorSpace,v.isVideoTexture);re(it,v);let W,dt=v.mipmaps,at=v.isVideoTexture!==!0,ht=pt.__version===void 0||Q===!0,Pt=ct.dataReady,Xt=T(v,J);if(v.isDepthTexture)K=y(v.format===Ri,v.type),ht&&(at?e.texStorage2D(i.TEXTURE_2D,1,K,J.width,J.height):e.texImage2D(i.TEXTURE_2D,0,K,J.width,J.height,0,ut,R,null));else if(v.isDataTexture)if(dt.length>0){at&&ht&&e.texStorage2D(i.TEXTURE_2D,Xt,K,dt[0].width,dt[0].height);for(let ot=0,Lt=dt.length;ot<Lt;ot++)W=dt[ot],at?Pt&&e.texSubImage2D(i.TEXTURE_2D,ot,0,0,W.width,W.height,ut,R,W.data):e.texImage2D(i.TEXTURE_2D,ot,K,W.width,W.height,0,ut,R,W.data);v.generateMipmaps=!1}else at?(ht&&e.texStorage2D(i.TEXTURE_2D,Xt,K,J.width,J.height),Pt&&Ve(v,J,ut,R)):e.texImage2D(i.TEXTURE_2D,0,K,J.width,J.height,0,ut,R,J.data);else if(v.isCompressedTexture)if(v.isCompressedArrayTexture){at&&ht&&e.texStorage3D(i.TEXTURE_2D_ARRAY,Xt,K,dt[0].width,dt[0].height,J.depth);for(let ot=0,Lt=dt.length;ot<Lt;ot++)if(W=dt[ot],v.format!==bn)if(ut!==null)if(at){if(Pt)if(v.layerUpdates.size>0){let Wt=ud(W.width,W.height,v.format,v.type);for(let _t of v.layerUpdates){let oe=W.data.subarray(_t*Wt/W.data.BYTES_PER_ELEMENT,(_t+1)*Wt/W.data.BYTES_PER_ELEMENT);e.compressedTexSubImage3D(i.TEXTURE_2D_ARRAY,ot,0,0,_t,W.width,W.height,1,ut,oe)}}else e.compressedTexSubImage3D(i.TEXTURE_2D_ARRAY,ot,0,0,0,W.width,W.height,J.depth,ut,W.data)}else e.compressedTexImage3D(i.TEXTURE_2D_ARRAY,ot,K,W.width,W.height,J.depth,0,W.data,0,0);else Ut("WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()");else at?Pt&&e.texSubImage3D(i.TEXTURE_2D_ARRAY,ot,0,0,0,W.width,W.height,J.depth,ut,R,W.data):e.texImage3D(i.TEXTURE_2D_ARRAY,ot,K,W.width,W.height,J.depth,0,ut,R,W.data);v.layerUpdates.size>0&&v.clearLayerUpdates()}else{at&&ht&&e.texStorage2D(i.TEXTURE_2D,Xt,K,dt[0].width,dt[0].height);for(let ot=0,Lt=dt.length;ot<Lt;ot++)W=dt[ot],v.format!==bn?ut!==null?at?Pt&&e.compressedTexSubImage2D(i.TEXTURE_2D,ot,0,0,W.width,W.height,ut,W.data):e.compressedTexImage2D(i.TEXTURE_2D,ot,K,W.width,W.height,0,W.data):Ut("WebGLRenderer: Attempt to load unsupported compressed texture format in .uploadTexture()"):at?Pt&&e.texSubImage2D(i.TEXTURE_2D,ot,0,0,W.width,W.height,ut,R,W.data):e.texImage2D(i.TEXTURE_2D,ot,K,W.width,W.height,0,ut,R,W.data)}else if(v.isDataArrayTexture)if(at){if(ht&&e.texStorage3D(i.TEXTURE_2D_ARRAY,Xt,K,J.width,J.height,J.depth),Pt)if(v.layerUpdates.size>0){let ot=ud(J.width,J.height,v.format,v.type);for(let Lt of v.layerUpdates){let Wt=J.data.subarray(Lt*ot/J.data.BYTES_PER_ELEMENT,(Lt+1)*ot/J.data.BYTES_PER_ELEMENT);e.texSubImage3D(i.TEXTURE_2D_ARRAY,0,0,0,Lt,J.width,J.height,1,ut,R,Wt)}v.clearLayerUpdates()}else e.texSubImage3D(i.TEXTURE_2D_ARRAY,0,0,0,0,J.width,J.height,J.depth,ut,R,J.data)}else e.texImage3D(i.TEXTURE_2D_ARRAY,0,K,J.width,J.height,J.depth,0,ut,R,J.data);else if(v.isData3DTexture)at?(ht&&e.texStorage3D(i.TEXTURE_3D,Xt,K,J.width,J.height,J.depth),Pt&&e.texSubImage3D(i.TEXTURE_3D,0,0,0,0,J.width,J.height,J.depth,ut,R,J.data)):e.texImage3D(i.TEXTURE_3D,0,K,J.width,J.height,J.depth,0,ut,R,J.data);else if(v.isFramebufferTexture){if(ht)if(at)e.texStorage2D(i.TEXTURE_2D,Xt,K,J.width,J.height);else{let ot=J.width,Lt=J.height;for(let Wt=0;Wt<Xt;Wt++)e.texImage2D(i.TEXTURE_2D,Wt,K,ot,Lt,0,ut,R,null),ot>>=1,Lt>>=1}}else if(v.isHTMLTexture){if("texElementImage2D"in i){let ot=i.canvas;if(ot.hasAttribute("layoutsubtree")||ot.setAttribute("layoutsubtree","true"),J.parentNode!==ot){ot.appendChild(J),d.add(v),ot.onpaint=Lt=>{let Wt=Lt.changedElements;for(let _t of d)Wt.includes(_t.image)&&(_t.needsUpdate=!0)},ot.requestPaint();return}if(i.texElementImage2D.length===3)i.texElementImage2D(i.TEXTURE_2D,i.RGBA8,J);else{let Wt=i.RGBA,_t=i.RGBA,oe=i.UNSIGNED_BYTE;i.texElementImage2D(i.TEXTURE_2D,0,Wt,_t,oe,J)}i.texParameteri(i.TEXTURE_2D,i.TEXTURE_MIN_FILTER,i.LINEAR),i.texParameteri(i.TEXTURE_2D,i.TEXTURE_WRAP_S,i.CLAMP_TO_EDGE),i.texParameteri(i.TEXTURE_2D,i.TEXTURE_WRAP_T,i.CLAMP_TO_EDGE)}}else if(dt.length>0){if(at&&ht){let ot=zt(dt[0]);e.texStorage2D(i.TEXTURE_2D,Xt,K,ot.width,ot.height)}for(let ot=0,Lt=dt.length;ot<Lt;ot++)W=dt[ot],at?Pt&&e.texSubImage2D(i.TEXTURE_2D,ot,0,0,ut,R,W):e.texImage2D(i.TEXTURE_2D,ot,K,ut,R,W);v.generateMipmaps=!1}else if(at){if(ht){let ot=zt(J);e.texStorage2D(i.TEXTURE_2D,Xt,K,ot.width,ot.height)}Pt&&e.texSubImage2D(i.TEXTURE_2D,0,0,0,ut,R,J)}else e.texImage2D(i.TEXTURE_2D,0,K,ut,R,J);I(v)&&v.mipmapsAutoUpdate===!0&&A(it),pt.__version=ct.version,v.onUpdate&&v.onUpdate(v)}w.__version=v.version}function cn(w,v,F){if(v.image.length!==6)return;let it=ae(w,v),Q=v.source;e.bindTexture(i.TEXTURE_CUBE_MAP,w.__webglTexture,i.TEXTURE0+F);let ct=n.get(Q);if(Q.version!==ct.__version||it===!0){e.activeTexture(i.TEXTURE0+F);let pt=Kt.getPrimaries(Kt.workingColorSpace),q=v.colorSpace===Ii?null:Kt.getPrimaries(v.colorSpace),J=v.colorSpace===Ii||pt===q?i.NONE:i.BROWSER_DEFAULT_WEBGL;e.pixelStorei(i.UNPACK_FLIP_Y_WEBGL,v.flipY),e.pixelStorei(i.UNPACK_PREMULTIPLY_ALPHA_WEBGL,v.premultiplyAlpha),e.pixelStorei(i.UNPACK_ALIGNMENT,v.unpackAlignment),e.pixelStorei(i.UNPACK_COLORSPACE_CONVERSION_WEBGL,J);let ut=v.isCompressedTexture||v.image[0].isCompressedTexture,R=v.image[0]&&v.image[0].isDataTexture,K=[];for(let _t=0;_t<6;_t++)!ut&&!R?K[_t]=b(v.image[_t],!0,s.maxCubemapSize):K[_t]=R?v.image[_t].image:v.image[_t],K[_t]=Dt(v,K[_t]);let W=K[0],dt=r.convert(v.format,v.colorSpace),at=r.convert(v.type),ht=E(v.internalFormat,dt,at,v.normalized,v.colorSpace),Pt=v.isVideoTexture!==!0,Xt=ct.__version===void 0||it===!0,ot=Q.dataReady,Lt=T(v,W);re(i.TEXTURE_CUBE_MAP,v);let Wt;if(v.isDepthTexture){if(ht=y(v.format===Ri,v.type),Xt)if(Pt)e.texStorage2D(i.TEXTURE_CUBE_MAP,1,ht,W.width,W.height);else for(let _t=0;_t<6;_t++)e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,0,ht,W.width,W.height,0,dt,at,null)}else if(ut){Pt&&Xt&&e.texStorage2D(i.TEXTURE_CUBE_MAP,Lt,ht,W.width,W.height);for(let _t=0;_t<6;_t++){Wt=K[_t].mipmaps;for(let oe=0;oe<Wt.length;oe++){let Ue=Wt[oe];v.format!==bn?dt!==null?Pt?ot&&e.compressedTexSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe,0,0,Ue.width,Ue.height,dt,Ue.data):e.compressedTexImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe,ht,Ue.width,Ue.height,0,Ue.data):Ut("WebGLRenderer: Attempt to load unsupported compressed texture format in .setTextureCube()"):Pt?ot&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe,0,0,Ue.width,Ue.height,dt,at,Ue.data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe,ht,Ue.width,Ue.height,0,dt,at,Ue.data)}}}else{if(Wt=v.mipmaps,Pt&&Xt){Wt.length>0&&Lt++;let _t=zt(K[0]);e.texStorage2D(i.TEXTURE_CUBE_MAP,Lt,ht,_t.width,_t.height)}for(let _t=0;_t<6;_t++)if(R){Pt?ot&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,0,0,0,K[_t].width,K[_t].height,dt,at,K[_t].data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,0,ht,K[_t].width,K[_t].height,0,dt,at,K[_t].data);for(let oe=0;oe<Wt.length;oe++){let Li=Wt[oe].image[_t].image;Pt?ot&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe+1,0,0,Li.width,Li.height,dt,at,Li.data):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe+1,ht,Li.width,Li.height,0,dt,at,Li.data)}}else{Pt?ot&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,0,0,0,dt,at,K[_t]):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,0,ht,dt,at,K[_t]);for(let oe=0;oe<Wt.length;oe++){let Ue=Wt[oe];Pt?ot&&e.texSubImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe+1,0,0,dt,at,Ue.image[_t]):e.texImage2D(i.TEXTURE_CUBE_MAP_POSITIVE_X+_t,oe+1,ht,dt,at,Ue.image[_t])}}}I(v)&&v.mipmapsAutoUpdate===!0&&A(i.TEXTURE_CUBE_MAP),ct.__version=Q.version,v.onUpdate&&v.onUpdate(v)}w.__version=v.version}function me(w,v,F,it,Q,ct){let pt=r.convert(F.format,F.colorSpace),q=r.convert(F.type),J=E(F.internalFormat,pt,q,F.normalized,F.colorSpace),ut=n.get(v),R=n.get(F);if(R.__renderTarget=v,!ut.__hasExternalTextures){let K=Math.max(1,v.width>>ct),W=Math.max(1,v.height>>ct);Q===i.TEXTURE_3D||Q===i.TEXTURE_2D_ARRAY?e.texImage3D(Q,ct,J,K,W,v.depth,0,pt,q,null):e.texImage2D(Q,ct,J,K,W,0,pt,q,null)}e.bindFramebuffer(i.FRAMEBUFFER,w),gt(v)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,it,Q,R.__webglTexture,0,pe(v)):(Q===i.TEXTURE_2D||Q>=i.TEXTURE_CUBE_MAP_POSITIVE_X&&Q<=i.TEXTURE_CUBE_MAP_NEGATIVE_Z)&&i.framebufferTexture2D(i.FRAMEBUFFER,it,Q,R.__webglTexture,ct),e.bindFramebuffer(i.FRAMEBUFFER,null)}function ti(w,v,F){if(i.bindRenderbuffer(i.RENDERBUFFER,w),v.depthBuffer){let it=v.depthTexture,Q=it&&it.isDepthTexture?it.type:null,ct=y(v.stencilBuffer,Q),pt=v.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;gt(v)?a.renderbufferStorageMultisampleEXT(i.RENDERBUFFER,pe(v),ct,v.width,v.height):F?i.renderbufferStorageMultisample(i.RENDERBUFFER,pe(v),ct,v.width,v.height):i.renderbufferStorage(i.RENDERBUFFER,ct,v.width,v.height),i.framebufferRenderbuffer(i.FRAMEBUFFER,pt,i.RENDERBUFFER,w)}else{let it=v.textures;for(let Q=0;Q<it.length;Q++){let ct=it[Q],pt=r.convert(ct.format,ct.colorSpace),q=r.convert(ct.type),J=E(ct.internalFormat,pt,q,ct.normalized,ct.colorSpace);gt(v)?a.renderbufferStorageMultisampleEXT(i.RENDERBUFFER,pe(v),J,v.width,v.height):F?i.renderbufferStorageMultisample(i.RENDERBUFFER,pe(v),J,v.width,v.height):i.renderbufferStorage(i.RENDERBUFFER,J,v.width,v.height)}}i.bindRenderbuffer(i.RENDERBUFFER,null)}function Oe(w,v,F){let it=v.isWebGLCubeRenderTarget===!0;if(e.bindFramebuffer(i.FRAMEBUFFER,w),!(v.depthTexture&&v.depthTexture.isDepthTexture))throw new Error("THREE.WebGLTextures: renderTarget.depthTexture must be an instance of THREE.DepthTexture.");let Q=n.get(v.depthTexture);Q.__renderTarget=v;let ct=it?v.depthTexture.image[0]:v.depthTexture.image;(!Q.__webglTexture||ct.width!==v.width||ct.height!==v.height)&&(ct.width=v.width,ct.height=v.height,v.depthTexture.needsUpdate=!0),it?Mt(v.depthTexture,0):yt(v.depthTexture,0);let pt=Q.__webglTexture,q=pe(v),J=it?i.TEXTURE_CUBE_MAP_POSITIVE_X+F:i.TEXTURE_2D,ut=v.depthTexture.format===Ri?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;if(v.depthTexture.format===Ai)gt(v)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,ut,J,pt,0,q):i.framebufferTexture2D(i.FRAMEBUFFER,ut,J,pt,0);else if(v.depthTexture.format===Ri)gt(v)?a.framebufferTexture2DMultisampleEXT(i.FRAMEBUFFER,ut,J,pt,0,q):i.framebufferTexture2D(i.FRAMEBUFFER,ut,J,pt,0);else throw new Error("THREE.WebGLTextures: Unknown depthTexture format.")}function wn(w){let v=n.get(w),F=w.isWebGLCubeRenderTarget===!0;if(v.__boundDepthTexture!==w.depthTexture){let it=w.depthTexture;if(v.__depthDisposeCallback&&v.__depthDisposeCallback(),it){let Q=()=>{delete v.__boundDepthTexture,delete v.__depthDisposeCallback,it.removeEventListener("dispose",Q)};it.addEventListener("dispose",Q),v.__depthDisposeCallback=Q}v.__boundDepthTexture=it}if(w.depthTexture&&!v.__autoAllocateDepthBuffer)if(F)for(let it=0;it<6;it++)Oe(v.__webglFramebuffer[it],w,it);else w.texture.mipmaps.length>0?Oe(v.__webglFramebuffer[0],w,0):Oe(v.__webglFramebuffer,w,0);else if(F){v.__webglDepthbuffer=[];for(let it=0;it<6;it++)if(e.bindFramebuffer(i.FRAMEBUFFER,v.__webglFramebuffer[it]),v.__webglDepthbuffer[it]===void 0)v.__webglDepthbuffer[it]=i.createRenderbuffer(),ti(v.__webglDepthbuffer[it],w,!1);else{let Q=w.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,ct=v.__webglDepthbuffer[it];i.bindRenderbuffer(i.RENDERBUFFER,ct),i.framebufferRenderbuffer(i.FRAMEBUFFER,Q,i.RENDERBUFFER,ct)}}else if(w.texture.mipmaps.length>0?e.bindFramebuffer(i.FRAMEBUFFER,v.__webglFramebuffer[0]):e.bindFramebuffer(i.FRAMEBUFFER,v.__webglFramebuffer),v.__webglDepthbuffer===void 0)v.__webglDepthbuffer=i.createRenderbuffer(),ti(v.__webglDepthbuffer,w,!1);else{let Q=w.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,ct=v.__webglDepthbuffer;i.bindRenderbuffer(i.RENDERBUFFER,ct),i.framebufferRenderbuffer(i.FRAMEBUFFER,Q,i.RENDERBUFFER,ct)}e.bindFramebuffer(i.FRAMEBUFFER,null)}function Tn(w,v,F){let it=n.get(w);v!==void 0&&me(it.__webglFramebuffer,w,w.texture,i.COLOR_ATTACHMENT0,i.TEXTURE_2D,0),F!==void 0&&wn(w)}function An(w){let v=w.texture,F=n.get(w),it=n.get(v);w.addEventListener("dispose",z),B(w);let Q=w.textures,ct=w.isWebGLCubeRenderTarget===!0,pt=Q.length>1;if(pt||(it.__webglTexture===void 0&&(it.__webglTexture=i.createTexture()),it.__version=v.version,o.memory.textures++),ct){F.__webglFramebuffer=[];for(let q=0;q<6;q++)if(v.mipmaps.length>0){F.__webglFramebuffer[q]=[];for(let J=0;J<v.mipmaps.length;J++)F.__webglFramebuffer[q][J]=i.createFramebuffer()}else F.__webglFramebuffer[q]=i.createFramebuffer()}else{if(v.mipmaps.length>0){F.__webglFramebuffer=[];for(let q=0;q<v.mipmaps.length;q++)F.__webglFramebuffer[q]=i.createFramebuffer()}else F.__webglFramebuffer=i.createFramebuffer();if(pt)for(let q=0,J=Q.length;q<J;q++){let ut=n.get(Q[q]);ut.__webglTexture===void 0&&(ut.__webglTexture=i.createTexture(),o.memory.textures++)}if(w.samples>0&&gt(w)===!1){F.__webglMultisampledFramebuffer=i.createFramebuffer(),F.__webglColorRenderbuffer=[],e.bindFramebuffer(i.FRAMEBUFFER,F.__webglMultisampledFramebuffer);for(let q=0;q<Q.length;q++){let J=Q[q];F.__webglColorRenderbuffer[q]=i.createRenderbuffer(),i.bindRenderbuffer(i.RENDERBUFFER,F.__webglColorRenderbuffer[q]);let ut=r.convert(J.format,J.colorSpace),R=r.convert(J.type),K=E(J.internalFormat,ut,R,J.normalized,J.colorSpace,w.isXRRenderTarget===!0),W=pe(w);i.renderbufferStorageMultisample(i.RENDERBUFFER,W,K,w.width,w.height),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+q,i.RENDERBUFFER,F.__webglColorRenderbuffer[q])}i.bindRenderbuffer(i.RENDERBUFFER,null),w.depthBuffer&&(F.__webglDepthRenderbuffer=i.createRenderbuffer(),ti(F.__webglDepthRenderbuffer,w,!0)),e.bindFramebuffer(i.FRAMEBUFFER,null)}}if(ct){e.bindTexture(i.TEXTURE_CUBE_MAP,it.__webglTexture),re(i.TEXTURE_CUBE_MAP,v);for(let q=0;q<6;q++)if(v.mipmaps.length>0)for(let J=0;J<v.mipmaps.length;J++)me(F.__webglFramebuffer[q][J],w,v,i.COLOR_ATTACHMENT0,i.TEXTURE_CUBE_MAP_POSITIVE_X+q,J);else me(F.__webglFramebuffer[q],w,v,i.COLOR_ATTACHMENT0,i.TEXTURE_CUBE_MAP_POSITIVE_X+q,0);I(v)?A(i.TEXTURE_CUBE_MAP):v.mipmaps.length>0&&i.texParameteri(i.TEXTURE_CUBE_MAP,i.TEXTURE_MAX_LEVEL,v.mipmaps.length-1),e.unbindTexture()}else if(pt){for(let q=0,J=Q.length;q<J;q++){let ut=Q[q],R=n.get(ut),K=i.TEXTURE_2D;(w.isWebGL3DRenderTarget||w.isWebGLArrayRenderTarget)&&(K=w.isWebGL3DRenderTarget?i.TEXTURE_3D:i.TEXTURE_2D_ARRAY),e.bindTexture(K,R.__webglTexture),re(K,ut),me(F.__webglFramebuffer,w,ut,i.COLOR_ATTACHMENT0+q,K,0),I(ut)&&A(K)}e.unbindTexture()}else{let q=i.TEXTURE_2D;if((w.isWebGL3DRenderTarget||w.isWebGLArrayRenderTarget)&&(q=w.isWebGL3DRenderTarget?i.TEXTURE_3D:i.TEXTURE_2D_ARRAY),e.bindTexture(q,it.__webglTexture),re(q,v),v.mipmaps.length>0)for(let J=0;J<v.mipmaps.length;J++)me(F.__webglFramebuffer[J],w,v,i.COLOR_ATTACHMENT0,q,J);else me(F.__webglFramebuffer,w,v,i.COLOR_ATTACHMENT0,q,0);I(v)?A(q):v.mipmaps.length>0&&i.texParameteri(q,i.TEXTURE_MAX_LEVEL,v.mipmaps.length-1),e.unbindTexture()}w.depthBuffer&&wn(w)}function D(w){let v=w.textures;for(let F=0,it=v.length;F<it;F++){let Q=v[F];if(I(Q)&&Q.mipmapsAutoUpdate===!0){let ct=C(w),pt=n.get(Q).__webglTexture;e.bindTexture(ct,pt),A(ct),e.unbindTexture()}}}let En=[];function fe(w){if(w.samples>0){if(gt(w)===!1){let v=w.textures,F=w.width,it=w.height,Q=i.COLOR_BUFFER_BIT,ct=w.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT,pt=n.get(w),q=v.length>1;if(q)for(let ut=0;ut<v.length;ut++)e.bindFramebuffer(i.FRAMEBUFFER,pt.__webglMultisampledFramebuffer),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+ut,i.RENDERBUFFER,null),e.bindFramebuffer(i.FRAMEBUFFER,pt.__webglFramebuffer),i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0+ut,i.TEXTURE_2D,null,0);e.bindFramebuffer(i.READ_FRAMEBUFFER,pt.__webglMultisampledFramebuffer),w.texture.mipmaps.length>0?e.bindFramebuffer(i.DRAW_FRAMEBUFFER,pt.__webglFramebuffer[0]):e.bindFramebuffer(i.DRAW_FRAMEBUFFER,pt.__webglFramebuffer);for(let ut=0;ut<v.length;ut++){if(w.resolveDepthBuffer&&(w.depthBuffer&&(Q|=i.DEPTH_BUFFER_BIT),w.stencilBuffer&&w.resolveStencilBuffer&&(Q|=i.STENCIL_BUFFER_BIT)),q){i.framebufferRenderbuffer(i.READ_FRAMEBUFFER,i.COLOR_ATTACHMENT0,i.RENDERBUFFER,pt.__webglColorRenderbuffer[ut]);let R=n.get(v[ut]).__webglTexture;i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0,i.TEXTURE_2D,R,0)}i.blitFramebuffer(0,0,F,it,0,0,F,it,Q,i.NEAREST),l===!0&&(En.length=0,En.push(i.COLOR_ATTACHMENT0+ut),w.depthBuffer&&w.storeMultisampledDepthBuffer===!1&&En.push(ct),i.invalidateFramebuffer(i.READ_FRAMEBUFFER,En))}if(e.bindFramebuffer(i.READ_FRAMEBUFFER,null),e.bindFramebuffer(i.DRAW_FRAMEBUFFER,null),q)for(let ut=0;ut<v.length;ut++){e.bindFramebuffer(i.FRAMEBUFFER,pt.__webglMultisampledFramebuffer),i.framebufferRenderbuffer(i.FRAMEBUFFER,i.COLOR_ATTACHMENT0+ut,i.RENDERBUFFER,pt.__webglColorRenderbuffer[ut]);let R=n.get(v[ut]).__webglTexture;e.bindFramebuffer(i.FRAMEBUFFER,pt.__webglFramebuffer),i.framebufferTexture2D(i.DRAW_FRAMEBUFFER,i.COLOR_ATTACHMENT0+ut,i.TEXTURE_2D,R,0)}e.bindFramebuffer(i.DRAW_FRAMEBUFFER,pt.__webglMultisampledFramebuffer)}else if(w.depthBuffer&&w.storeMultisampledDepthBuffer===!1&&l){let v=w.stencilBuffer?i.DEPTH_STENCIL_ATTACHMENT:i.DEPTH_ATTACHMENT;i.invalidateFramebuffer(i.DRAW_FRAMEBUFFER,[v])}}}function pe(w){return Math.min(s.maxSamples,w.samples)}function gt(w){let v=n.get(w);return w.samples>0&&t.has("WEBGL_multisampled_render_to_texture")===!0&&v.__useRenderToTexture!==!1}function Pe(w){let v=o.render.frame;h.get(w)!==v&&(h.set(w,v),w.update())}function Dt(w,v){let F=w.colorSpace,it=w.format,Q=w.type;return w.isCompressedTexture===!0||w.isVideoTexture===!0||F!==$r&&F!==Ii&&(Kt.getTransfer(F)===se?(it!==bn||Q!==Sn)&&Ut("WebGLTextures: sRGB encoded textures have to use RGBAFormat and UnsignedByteType."):Ft("WebGLTextures: Unsupported texture color space:",F)),v}function zt(w){return typeof HTMLImageElement<"u"&&w instanceof HTMLImageElement?(c.width=w.naturalWidth||w.width,c.height=w.naturalHeight||w.height):typeof VideoFrame<"u"&&w instanceof VideoFrame?(c.width=w.displayWidth,c.height=w.displayHeight):(c.width=w.width,c.height=w.height),c}this.allocateTextureUnit=Gt,this.resetTextureUnits=tt,this.getTextureUnits=et,this.setTextureUnits=Et,this.setTexture2D=yt,this.setTexture2DArray=wt,this.setTexture3D=Nt,this.setTextureCube=Mt,this.rebindTextures=Tn,this.setupRenderTarget=An,this.updateRenderTargetMipmap=D,this.updateMultisampleRenderTarget=fe,this.setupDepthRenderbuffer=wn,this.setupFrameBufferTexture=me,this.useMultisampledRTT=gt,this.dispose=$}function sA(i,t){function e(n,s=Ii){let r,o=Kt.getTransfer(s);if(n===Sn)return i.UNSIGNED_BYTE;if(n===Cl)return i.UNSIGNED_SHORT_4_4_4_4;if(n===Rl)return i.UNSIGNED_SHORT_5_5_5_1;if(n===Ku)return i.UNSIGNED_INT_5_9_9_9_REV;if(n===ju)return i.UNSIGNED_INT_10F_11F_11F_REV;if(n===Ju)return i.BYTE;if(n===Zu)return i.SHORT;if(n===ir)return i.UNSIGNED_SHORT;if(n===El)return i.INT;if(n===Kn)return i.UNSIGNED_INT;if(n===jn)return i.FLOAT;if(n===Qn)return i.HALF_FLOAT;if(n===Qu)return i.ALPHA;if(n===td)return i.RGB;if(n===bn)return i.RGBA;if(n===Ai)return i.DEPTH_COMPONENT;if(n===Ri)return i.DEPTH_STENCIL;if(n===ed)return i.RED;if(n===Il)return i.RED_INTEGER;if(n===Zi)return i.RG;if(n===Pl)return i.RG_INTEGER;if(n===Ll)return i.RGBA_INTEGER;if(n===co||n===ho||n===uo||n===fo)if(o===se)if(r=t.get("WEBGL_compressed_texture_s3tc_srgb"),r!==null){if(n===co)return r.COMPRESSED_SRGB_S3TC_DXT1_EXT;if(n===ho)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT1_EXT;if(n===uo)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT3_EXT;if(n===fo)return r.COMPRESSED_SRGB_ALPHA_S3TC_DXT5_EXT}else return null;else if(r=t.get("WEBGL_compressed_texture_s3tc"),r!==null){if(n===co)return r.COMPRESSED_RGB_S3TC_DXT1_EXT;if(n===ho)return r.COMPRESSED_RGBA_S3TC_DXT1_EXT;if(n===uo)return r.COMPRESSED_RGBA_S3TC_DXT3_EXT;if(n===fo)return r.COMPRESSED_RGBA_S3TC_DXT5_EXT}else return null;if(n===Nl||n===Dl||n===Ol||n===Ul)if(r=t.get("WEBGL_compressed_texture_pvrtc"),r!==null){if(n===Nl)return r.COMPRESSED_RGB_PVRTC_4BPPV1_IMG;if(n===Dl)return r.COMPRESSED_RGB_PVRTC_2BPPV1_IMG;if(n===Ol)return r.COMPRESSED_RGBA_PVRTC_4BPPV1_IMG;if(n===Ul)return r.COMPRESSED_RGBA_PVRTC_2BPPV1_IMG}else return null;if(n===Fl||n===kl||n===Bl||n===zl||n===Gl||n===po||n===Vl)if(r=t.get("WEBGL_compressed_texture_etc"),r!==null){if(n===Fl||n===kl)return o===se?r.COMPRESSED_SRGB8_ETC2:r.COMPRESSED_RGB8_ETC2;if(n===Bl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ETC2_EAC:r.COMPRESSED_RGBA8_ETC2_EAC;if(n===zl)return r.COMPRESSED_R11_EAC;if(n===Gl)return r.COMPRESSED_SIGNED_R11_EAC;if(n===po)return r.COMPRESSED_RG11_EAC;if(n===Vl)return r.COMPRESSED_SIGNED_RG11_EAC}else return null;if(n===Hl||n===Wl||n===Xl||n===$l||n===ql||n===Yl||n===Jl||n===Zl||n===Kl||n===jl||n===Ql||n===tc||n===ec||n===nc)if(r=t.get("WEBGL_compressed_texture_astc"),r!==null){if(n===Hl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_4x4_KHR:r.COMPRESSED_RGBA_ASTC_4x4_KHR;if(n===Wl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_5x4_KHR:r.COMPRESSED_RGBA_ASTC_5x4_KHR;if(n===Xl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_5x5_KHR:r.COMPRESSED_RGBA_ASTC_5x5_KHR;if(n===$l)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_6x5_KHR:r.COMPRESSED_RGBA_ASTC_6x5_KHR;if(n===ql)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_6x6_KHR:r.COMPRESSED_RGBA_ASTC_6x6_KHR;if(n===Yl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x5_KHR:r.COMPRESSED_RGBA_ASTC_8x5_KHR;if(n===Jl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x6_KHR:r.COMPRESSED_RGBA_ASTC_8x6_KHR;if(n===Zl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_8x8_KHR:r.COMPRESSED_RGBA_ASTC_8x8_KHR;if(n===Kl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x5_KHR:r.COMPRESSED_RGBA_ASTC_10x5_KHR;if(n===jl)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x6_KHR:r.COMPRESSED_RGBA_ASTC_10x6_KHR;if(n===Ql)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x8_KHR:r.COMPRESSED_RGBA_ASTC_10x8_KHR;if(n===tc)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_10x10_KHR:r.COMPRESSED_RGBA_ASTC_10x10_KHR;if(n===ec)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_12x10_KHR:r.COMPRESSED_RGBA_ASTC_12x10_KHR;if(n===nc)return o===se?r.COMPRESSED_SRGB8_ALPHA8_ASTC_12x12_KHR:r.COMPRESSED_RGBA_ASTC_12x12_KHR}else return null;if(n===ic||n===sc||n===rc)if(r=t.get("EXT_texture_compression_bptc"),r!==null){if(n===ic)return o===se?r.COMPRESSED_SRGB_ALPHA_BPTC_UNORM_EXT:r.COMPRESSED_RGBA_BPTC_UNORM_EXT;if(n===sc)return r.COMPRESSED_RGB_BPTC_SIGNED_FLOAT_EXT;if(n===rc)return r.COMPRESSED_RGB_BPTC_UNSIGNED_FLOAT_EXT}else return null;if(n===oc||n===ac||n===mo||n===lc)if(r=t.get("EXT_texture_compression_rgtc"),r!==null){if(n===oc)return r.COMPRESSED_RED_RGTC1_EXT;if(n===ac)return r.COMPRESSED_SIGNED_RED_RGTC1_EXT;if(n===mo)return r.COMPRESSED_RED_GREEN_RGTC2_EXT;if(n===lc)return r.COMPRESSED_SIGNED_RED_GREEN_RGTC2_EXT}else return null;return n===fs?i.UNSIGNED_INT_24_8:i[n]!==void 0?i[n]:null}return{convert:e}}var rA=`
void main() {

	gl_Position = vec4( position, 1.0 );

}`,oA=`
uniform sampler2DArray depthColor;
uniform float depthWidth;
uniform float depthHeight;

void main() {

	vec2 coord = vec2( gl_FragCoord.x / depthWidth, gl_FragCoord.y / depthHeight );

	if ( coord.x >= 1.0 ) {

		gl_FragDepth = texture( depthColor, vec3( coord.x - 1.0, coord.y, 1 ) ).r;

	} else {

		gl_FragDepth = texture( depthColor, vec3( coord.x, coord.y, 0 ) ).r;

	}

}`,Td=class{constructor(){this.texture=null,this.mesh=null,this.depthNear=0,this.depthFar=0}init(t,e){if(this.texture===null){let n=new io(t.texture);(t.depthNear!==e.depthNear||t.depthFar!==e.depthFar)&&(this.depthNear=t.depthNear,this.depthFar=t.depthFar),this.texture=n}}getMesh(t){if(this.texture!==null&&this.mesh===null){let e=t.cameras[0].viewport,n=new ci({vertexShader:rA,fragmentShader:oA,uniforms:{depthColor:{value:this.texture},depthWidth:{value:e.z},depthHeight:{value:e.w}}});this.mesh=new kn(new so(20,20),n)}return this.mesh}reset(){this.texture=null,this.mesh=null}getDepthTexture(){return this.texture}},Ad=class extends ai{constructor(t,e){super();let n=this,s=null,r=1,o=null,a="local-floor",l=1,c=null,h=null,d=null,u=null,f=null,m=null,S=typeof XRWebGLBinding<"u",g=new Td,_={},b=e.getContextAttributes(),I=null,A=null,C=[],E=[],y=new ne,T=null,B=null,N=new yn;N.viewport=new xe;let O=new yn;O.viewport=new xe;let z=[N,O],Y=new Sl,L=null,$=null;this.cameraAutoUpdate=!0,this.enabled=!1,this.isPresenting=!1,this.getController=function(Z){let yt=C[Z];return yt===void 0&&(yt=new qs,C[Z]=yt),yt.getTargetRaySpace()},this.getControllerGrip=function(Z){let yt=C[Z];return yt===void 0&&(yt=new qs,C[Z]=yt),yt.getGripSpace()},this.getHand=function(Z){let yt=C[Z];return yt===void 0&&(yt=new qs,C[Z]=yt),yt.getHandSpace()};function j(Z){let yt=E.indexOf(Z.inputSource);if(yt===-1)return;let wt=C[yt];wt!==void 0&&(wt.update(Z.inputSource,Z.frame,c||o),wt.dispatchEvent({type:Z.type,data:Z.inputSource}))}function H(){s.removeEventListener("select",j),s.removeEventListener("selectstart",j),s.removeEventListener("selectend",j),s.removeEventListener("squeeze",j),s.removeEventListener("squeezestart",j),s.removeEventListener("squeezeend",j),s.removeEventListener("end",H),s.removeEventListener("inputsourceschange",rt);for(let Z=0;Z<C.length;Z++){let yt=E[Z];yt!==null&&(E[Z]=null,C[Z].disconnect(yt))}L=null,$=null,g.reset();for(let Z in _)delete _[Z];if(t.setRenderTarget(I),f=null,u=null,d=null,s=null,A=null,Gt.stop(),n.isPresenting=!1,t.setPixelRatio(T),t.setSize(y.width,y.height,!1),B!==null){let Z=B.camera;Z.fov=B.fov,Z.zoom=B.zoom,Z.updateProjectionMatrix(),B=null}n.dispatchEvent({type:"sessionend"})}this.setFramebufferScaleFactor=function(Z){r=Z,n.isPresenting===!0&&Ut("WebXRManager: Cannot change framebuffer scale while presenting.")},this.setReferenceSpaceType=function(Z){a=Z,n.isPresenting===!0&&Ut("WebXRManager: Cannot change reference space type while presenting.")},this.getReferenceSpace=function(){return c||o},this.setReferenceSpace=function(Z){c=Z},this.getBaseLayer=function(){return u!==null?u:f},this.getBinding=function(){return d===null&&S&&(d=new XRWebGLBinding(s,e)),d},this.getFrame=function(){return m},this.getSession=function(){return s},this.setSession=async function(Z){if(s=Z,s!==null){if(I=t.getRenderTarget(),s.addEventListener("select",j),s.addEventListener("selectstart",j),s.addEventListener("selectend",j),s.addEventListener("squeeze",j),s.addEventListener("squeezestart",j),s.addEventListener("squeezeend",j),s.addEventListener("end",H),s.addEventListener("inputsourceschange",rt),b.xrCompatible!==!0&&await e.makeXRCompatible(),T=t.getPixelRatio(),t.getSize(y),S&&"createProjectionLayer"in XRWebGLBinding.prototype){let wt=null,Nt=null,Mt=null;b.depth&&(Mt=b.stencil?e.DEPTH24_STENCIL8:e.DEPTH_COMPONENT24,wt=b.stencil?Ri:Ai,Nt=b.stencil?fs:Kn);let Ht={colorFormat:e.RGBA8,depthFormat:Mt,scaleFactor:r};d=this.getBinding(),u=d.createProjectionLayer(Ht),s.updateRenderState({layers:[u]}),t.setPixelRatio(1),t.setSize(u.textureWidth,u.textureHeight,!1),A=new vn(u.textureWidth,u.textureHeight,{format:bn,type:Sn,depthTexture:new Ei(u.textureWidth,u.textureHeight,Nt,void 0,void 0,void 0,void 0,void 0,void 0,wt),stencilBuffer:b.stencil,colorSpace:t.outputColorSpace,samples:b.antialias?4:0,resolveDepthBuffer:u.ignoreDepthValues===!1,resolveStencilBuffer:u.ignoreDepthValues===!1,storeMultisampledDepthBuffer:u.ignoreDepthValues===!1,storeMultisampledStencilBuffer:u.ignoreDepthValues===!1})}else{let wt={antialias:b.antialias,alpha:!0,depth:b.depth,stencil:b.stencil,framebufferScaleFactor:r};f=new XRWebGLLayer(s,e,wt),s.updateRenderState({baseLayer:f}),t.setPixelRatio(1),t.setSize(f.framebufferWidth,f.framebufferHeight,!1),A=new vn(f.framebufferWidth,f.framebufferHeight,{format:bn,type:Sn,colorSpace:t.outputColorSpace,stencilBuffer:b.stencil,resolveDepthBuffer:f.ignoreDepthValues===!1,resolveStencilBuffer:f.ignoreDepthValues===!1,storeMultisampledDepthBuffer:f.ignoreDepthValues===!1,storeMultisampledStencilBuffer:f.ignoreDepthValues===!1})}A.isXRRenderTarget=!0,this.setFoveation(l),c=null,o=await s.requestReferenceSpace(a),Gt.setContext(s),Gt.start(),n.isPresenting=!0,n.dispatchEvent({type:"sessionstart"})}},this.getEnvironmentBlendMode=function(){if(s!==null)return s.environmentBlendMode},this.getDepthTexture=function(){return g.getDepthTexture()};function rt(Z){for(let yt=0;yt<Z.removed.length;yt++){let wt=Z.removed[yt],Nt=E.indexOf(wt);Nt>=0&&(E[Nt]=null,C[Nt].disconnect(wt))}for(let yt=0;yt<Z.added.length;yt++){let wt=Z.added[yt],Nt=E.indexOf(wt);if(Nt===-1){for(let Ht=0;Ht<C.length;Ht++)if(Ht>=E.length){E.push(wt),Nt=Ht;break}else if(E[Ht]===null){E[Ht]=wt,Nt=Ht;break}if(Nt===-1)break}let Mt=C[Nt];Mt&&Mt.connect(wt)}}function X(Z,yt){yt===null?Z.matrixWorld.copy(Z.matrix):Z.matrixWorld.multiplyMatrices(yt.matrixWorld,Z.matrix),Z.matrixWorldInverse.copy(Z.matrixWorld).invert()}this.updateCamera=function(Z){if(s===null)return;let yt=Z.near,wt=Z.far;g.texture!==null&&(g.depthNear>0&&(yt=g.depthNear),g.depthFar>0&&(wt=g.depthFar)),Y.near=O.near=N.near=yt,Y.far=O.far=N.far=wt,(L!==Y.near||$!==Y.far)&&(s.updateRenderState({depthNear:Y.near,depthFar:Y.far}),L=Y.near,$=Y.far),Y.layers.mask=Z.layers.mask|6,N.layers.mask=Y.layers.mask&-5,O.layers.mask=Y.layers.mask&-3;let Nt=Z.parent,Mt=Y.cameras;X(Y,Nt);for(let Ht=0;Ht<Mt.length;Ht++)X(Mt[Ht],Nt);Y.projectionMatrix.copy(N.projectionMatrix),Y.projectionMatrixInverse.copy(N.projectionMatrixInverse),B===null&&Z.isPerspectiveCamera&&(B={camera:Z,fov:Z.fov,zoom:Z.zoom}),tt(Z,Y,Nt)};function tt(Z,yt,wt){wt===null?Z.matrix.copy(yt.matrixWorld):(Z.matrix.copy(wt.matrixWorld),Z.matrix.invert(),Z.matrix.multiply(yt.matrixWorld)),Z.matrix.decompose(Z.position,Z.quaternion,Z.scale),Z.updateMatrixWorld(!0),Z.projectionMatrix.copy(yt.projectionMatrix),Z.projectionMatrixInverse.copy(yt.projectionMatrixInverse),Z.isPerspectiveCamera&&(Z.fov=il*2*Math.atan(1/Z.projectionMatrix.elements[5]),Z.zoom=1)}this.getCamera=function(){return Y},this.getFoveation=function(){if(!(u===null&&f===null))return l},this.setFoveation=function(Z){l=Z,u!==null&&(u.fixedFoveation=Z),f!==null&&f.fixedFoveation!==void 0&&(f.fixedFoveation=Z)},this.hasDepthSensing=function(){return g.texture!==null},this.getDepthSensingMesh=function(){return g.getMesh(Y)},this.getCameraTexture=function(Z){return _[Z]};let et=null;function Et(Z,yt){if(h=yt.getViewerPose(c||o),m=yt,h!==null){let wt=h.views;f!==null&&(t.setRenderTargetFramebuffer(A,f.framebuffer),t.setRenderTarget(A));let Nt=!1;wt.length!==Y.cameras.length&&(Y.cameras.length=0,Nt=!0);for(let Ot=0;Ot<wt.length;Ot++){let re=wt[Ot],ae=null;if(f!==null)ae=f.getViewport(re);else{let Ve=d.getViewSubImage(u,re);ae=Ve.viewport,Ot===0&&(t.setRenderTargetTextures(A,Ve.colorTexture,Ve.depthStencilTexture),t.setRenderTarget(A))}let Yt=z[Ot];Yt===void 0&&(Yt=new yn,Yt.layers.enable(Ot),Yt.viewport=new xe,z[Ot]=Yt),Yt.matrix.fromArray(re.transform.matrix),Yt.matrix.decompose(Yt.position,Yt.quaternion,Yt.scale),Yt.projectionMatrix.fromArray(re.projectionMatrix),Yt.projectionMatrixInverse.copy(Yt.projectionMatrix).invert(),Yt.viewport.set(ae.x,ae.y,ae.width,ae.height),Ot===0&&(Y.matrix.copy(Yt.matrix),Y.matrix.decompose(Y.position,Y.quaternion,Y.scale)),Nt===!0&&Y.cameras.push(Yt)}let Mt=s.enabledFeatures;if(Mt&&Mt.includes("depth-sensing")&&s.depthUsage=="gpu-optimized"&&S){d=n.getBinding();let Ot=d.getDepthInformation(wt[0]);Ot&&Ot.isValid&&Ot.texture&&g.init(Ot,s.renderState)}if(Mt&&Mt.includes("camera-access")&&S){t.state.unbindTexture(),d=n.getBinding();for(let Ot=0;Ot<wt.length;Ot++){let re=wt[Ot].camera;if(re){let ae=_[re];ae||(ae=new io,_[re]=ae);let Yt=d.getCameraImage(re);ae.sourceTexture=Yt}}}}for(let wt=0;wt<C.length;wt++){let Nt=E[wt],Mt=C[wt];Nt!==null&&Mt!==void 0&&Mt.update(Nt,yt,c||o)}et&&et(Z,yt),yt.detectedPlanes&&n.dispatchEvent({type:"planesdetected",data:yt}),m=null}let Gt=new A_;Gt.setAnimationLoop(Et),this.setAnimationLoop=function(Z){et=Z},this.dispose=function(){}}},aA=new ye,U_=new Bt;U_.set(-1,0,0,0,1,0,0,0,1);function lA(i,t){function e(g,_){g.matrixAutoUpdate===!0&&g.updateMatrix(),_.value.copy(g.matrix)}function n(g,_){_.color.getRGB(g.fogColor.value,ld(i)),_.isFog?(g.fogNear.value=_.near,g.fogFar.value=_.far):_.isFogExp2&&(g.fogDensity.value=_.density)}function s(g,_,b,I,A){_.isNodeMaterial?_.uniformsNeedUpdate=!1:_.isMeshBasicMaterial?r(g,_):_.isMeshLambertMaterial?(r(g,_),_.envMap&&(g.envMapIntensity.value=_.envMapIntensity)):_.isMeshToonMaterial?(r(g,_),d(g,_)):_.isMeshPhongMaterial?(r(g,_),h(g,_),_.envMap&&(g.envMapIntensity.value=_.envMapIntensity)):_.isMeshStandardMaterial?(r(g,_),u(g,_),_.isMeshPhysicalMaterial&&f(g,_,A)):_.isMeshMatcapMaterial?(r(g,_),m(g,_)):_.isMeshDepthMaterial?r(g,_):_.isMeshDistanceMaterial?(r(g,_),S(g,_)):_.isMeshNormalMaterial?r(g,_):_.isLineBasicMaterial?(o(g,_),_.isLineDashedMaterial&&a(g,_)):_.isPointsMaterial?l(g,_,b,I):_.isSpriteMaterial?c(g,_):_.isShadowMaterial?(g.color.value.copy(_.color),g.opacity.value=_.opacity):_.isShaderMaterial&&(_.uniformsNeedUpdate=!1)}function r(g,_){g.opacity.value=_.opacity,_.color&&g.diffuse.value.copy(_.color),_.emissive&&g.emissive.value.copy(_.emissive).multiplyScalar(_.emissiveIntensity),_.map&&(g.map.value=_.map,e(_.map,g.mapTransform)),_.alphaMap&&(g.alphaMap.value=_.alphaMap,e(_.alphaMap,g.alphaMapTransform)),_.bumpMap&&(g.bumpMap.value=_.bumpMap,e(_.bumpMap,g.bumpMapTransform),g.bumpScale.value=_.bumpScale,_.side===ln&&(g.bumpScale.value*=-1)),_.normalMap&&(g.normalMap.value=_.normalMap,e(_.normalMap,g.normalMapTransform),g.normalScale.value.copy(_.normalScale),_.side===ln&&g.normalScale.value.negate()),_.displacementMap&&(g.displacementMap.value=_.displacementMap,e(_.displacementMap,g.displacementMapTransform),g.displacementScale.value=_.displacementScale,g.displacementBias.value=_.displacementBias),_.emissiveMap&&(g.emissiveMap.value=_.emissiveMap,e(_.emissiveMap,g.emissiveMapTransform)),_.specularMap&&(g.specularMap.value=_.specularMap,e(_.specularMap,g.specularMapTransform)),_.alphaTest>0&&(g.alphaTest.value=_.alphaTest);let b=t.get(_),I=b.envMap,A=b.envMapRotation;I&&(g.envMap.value=I,g.envMapRotation.value.setFromMatrix4(aA.makeRotationFromEuler(A)).transpose(),I.isCubeTexture&&I.isRenderTargetTexture===!1&&g.envMapRotation.value.premultiply(U_),g.reflectivity.value=_.reflectivity,g.ior.value=_.ior,g.refractionRatio.value=_.refractionRatio),_.lightMap&&(g.lightMap.value=_.lightMap,g.lightMapIntensity.value=_.lightMapIntensity,e(_.lightMap,g.lightMapTransform)),_.aoMap&&(g.aoMap.value=_.aoMap,g.aoMapIntensity.value=_.aoMapIntensity,e(_.aoMap,g.aoMapTransform))}function o(g,_){g.diffuse.value.copy(_.color),g.opacity.value=_.opacity,_.map&&(g.map.value=_.map,e(_.map,g.mapTransform))}function a(g,_){g.dashSize.value=_.dashSize,g.totalSize.value=_.dashSize+_.gapSize,g.scale.value=_.scale}function l(g,_,b,I){g.diffuse.value.copy(_.color),g.opacity.value=_.opacity,g.size.value=_.size*b,g.scale.value=I*.5,_.map&&(g.map.value=_.map,e(_.map,g.uvTransform)),_.alphaMap&&(g.alphaMap.value=_.alphaMap,e(_.alphaMap,g.alphaMapTransform)),_.alphaTest>0&&(g.alphaTest.value=_.alphaTest)}function c(g,_){g.diffuse.value.copy(_.color),g.opacity.value=_.opacity,g.rotation.value=_.rotation,_.map&&(g.map.value=_.map,e(_.map,g.mapTransform)),_.alphaMap&&(g.alphaMap.value=_.alphaMap,e(_.alphaMap,g.alphaMapTransform)),_.alphaTest>0&&(g.alphaTest.value=_.alphaTest)}function h(g,_){g.specular.value.copy(_.specular),g.shininess.value=Math.max(_.shininess,1e-4)}function d(g,_){_.gradientMap&&(g.gradientMap.value=_.gradientMap)}function u(g,_){g.metalness.value=_.metalness,_.metalnessMap&&(g.metalnessMap.value=_.metalnessMap,e(_.metalnessMap,g.metalnessMapTransform)),g.roughness.value=_.roughness,_.roughnessMap&&(g.roughnessMap.value=_.roughnessMap,e(_.roughnessMap,g.roughnessMapTransform)),_.envMap&&(g.envMapIntensity.value=_.envMapIntensity)}function f(g,_,b){g.ior.value=_.ior,_.diffuseRoughness>0&&(g.diffuseRoughness.value=_.diffuseRoughness,_.diffuseRoughnessMap&&(g.diffuseRoughnessMap.value=_.diffuseRoughnessMap,e(_.diffuseRoughnessMap,g.diffuseRoughnessMapTransform))),_.sheen>0&&(g.sheenColor.value.copy(_.sheenColor).multiplyScalar(_.sheen),g.sheenRoughness.value=_.sheenRoughness,_.sheenColorMap&&(g.sheenColorMap.value=_.sheenColorMap,e(_.sheenColorMap,g.sheenColorMapTransform)),_.sheenRoughnessMap&&(g.sheenRoughnessMap.value=_.sheenRoughnessMap,e(_.sheenRoughnessMap,g.sheenRoughnessMapTransform))),_.clearcoat>0&&(g.clearcoat.value=_.clearcoat,g.clearcoatRoughness.value=_.clearcoatRoughness,_.clearcoatMap&&(g.clearcoatMap.value=_.clearcoatMap,e(_.clearcoatMap,g.clearcoatMapTransform)),_.clearcoatRoughnessMap&&(g.clearcoatRoughnessMap.value=_.clearcoatRoughnessMap,e(_.clearcoatRoughnessMap,g.clearcoatRoughnessMapTransform)),_.clearcoatNormalMap&&(g.clearcoatNormalMap.value=_.clearcoatNormalMap,e(_.clearcoatNormalMap,g.clearcoatNormalMapTransform),g.clearcoatNormalScale.value.copy(_.clearcoatNormalScale),_.side===ln&&g.clearcoatNormalScale.value.negate())),_.dispersion>0&&(g.dispersion.value=_.dispersion),_.retroreflectivity>0&&(g.retroreflectivity.value=_.retroreflectivity),_.iridescence>0&&(g.iridescence.value=_.iridescence,g.iridescenceIOR.value=_.iridescenceIOR,g.iridescenceThicknessMinimum.value=_.iridescenceThicknessMinimum,g.iridescenceThicknessMaximum.value=_.iridescenceThicknessMaximum,_.iridescenceMap&&(g.iridescenceMap.value=_.iridescenceMap,e(_.iridescenceMap,g.iridescenceMapTransform)),_.iridescenceThicknessMap&&(g.iridescenceThicknessMap.value=_.iridescenceThicknessMap,e(_.iridescenceThicknessMap,g.iridescenceThicknessMapTransform))),_.transmission>0&&(g.transmission.value=_.transmission,g.transmissionSamplerMap.value=b.texture,g.transmissionSamplerSize.value.set(b.width,b.height),_.transmissionMap&&(g.transmissionMap.value=_.transmissionMap,e(_.transmissionMap,g.transmissionMapTransform)),g.thickness.value=_.thickness,_.thicknessMap&&(g.thicknessMap.value=_.thicknessMap,e(_.thicknessMap,g.thicknessMapTransform)),g.attenuationDistance.value=_.attenuationDistance,g.attenuationColor.value.copy(_.attenuationColor)),_.anisotropy>0&&(g.anisotropyVector.value.set(_.anisotropy*Math.cos(_.anisotropyRotation),_.anisotropy*Math.sin(_.anisotropyRotation)),_.anisotropyMap&&(g.anisotropyMap.value=_.anisotropyMap,e(_.anisotropyMap,g.anisotropyMapTransform))),g.specularIntensity.value=_.specularIntensity,g.specularColor.value.copy(_.specularColor),_.specularColorMap&&(g.specularColorMap.value=_.specularColorMap,e(_.specularColorMap,g.specularColorMapTransform)),_.specularIntensityMap&&(g.specularIntensityMap.value=_.specularIntensityMap,e(_.specularIntensityMap,g.specularIntensityMapTransform))}function m(g,_){_.matcap&&(g.matcap.value=_.matcap)}function S(g,_){let b=t.get(_).light;g.referencePosition.value.setFromMatrixPosition(b.matrixWorld),g.nearDistance.value=b.shadow.camera.near,g.farDistance.value=b.shadow.camera.far}return{refreshFogUniforms:n,refreshMaterialUniforms:s}}function cA(i,t,e,n){let s={},r={};function o(b,I){let A=I.program;n.uniformBlockBinding(b,A,s[b.id])}function a(b,I){let A=s[b.id];A===void 0&&(m(b),A=l(b),s[b.id]=A,b.addEventListener("dispose",g));let C=I.program;n.updateUBOMapping(b,C);let E=t.render.frame;r[b.id]!==E&&(c(b),r[b.id]=E)}function l(b){let I=i.createBuffer(),A=b.__size,C=b.usage;return i.bindBuffer(i.UNIFORM_BUFFER,I),i.bufferData(i.UNIFORM_BUFFER,A,C),i.bindBuffer(i.UNIFORM_BUFFER,null),I}function c(b){let I=s[b.id],A=b.uniforms,C=b.__cache;i.bindBuffer(i.UNIFORM_BUFFER,I);for(let E=0,y=A.length;E<y;E++){let T=A[E];if(Array.isArray(T))for(let B=0,N=T.length;B<N;B++)h(T[B],E,B,C);else h(T,E,0,C)}i.bindBuffer(i.UNIFORM_BUFFER,null)}function h(b,I,A,C){if(u(b,I,A,C)===!0){let E=b.__offset,y=b.value;if(Array.isArray(y)){let T=0;for(let B=0;B<y.length;B++){let N=y[B],O=S(N,!0);d(N,b.__data,T),T+=O.storage/Float32Array.BYTES_PER_ELEMENT}}else d(y,b.__data,0);i.bufferSubData(i.UNIFORM_BUFFER,E,b.__data)}}function d(b,I,A){typeof b=="number"||typeof b=="boolean"?I[A]=b:b.isMatrix3?(I[A]=b.elements[0],I[A+1]=b.elements[1],I[A+2]=b.elements[2],I[A+3]=0,I[A+4]=b.elements[3],I[A+5]=b.elements[4],I[A+6]=b.elements[5],I[A+7]=0,I[A+8]=b.elements[6],I[A+9]=b.elements[7],I[A+10]=b.elements[8],I[A+11]=0):ArrayBuffer.isView(b)?I.set(b.subarray(0,I.length-A),A):b.toArray(I,A)}function u(b,I,A,C){let E=b.value,y=I+"_"+A;if(Array.isArray(E)){C[y]===void 0&&(C[y]=[]);let T=C[y],B=!1;for(let N=0;N<E.length;N++)f(E[N],T,N)===!0&&(B=!0);return B}return f(E,C,y)}function f(b,I,A){if(I[A]===void 0)return typeof b=="number"||typeof b=="boolean"?I[A]=b:ArrayBuffer.isView(b)?I[A]=b.slice():I[A]=b.clone(),!0;{let C=I[A];if(typeof b=="number"||typeof b=="boolean"){if(C!==b)return I[A]=b,!0}else{if(ArrayBuffer.isView(b))return!0;if(C.equals(b)===!1)return C.copy(b),!0}}return!1}function m(b){let I=b.uniforms,A=0,C=16;for(let y=0,T=I.length;y<T;y++){let B=Array.isArray(I[y])?I[y]:[I[y]];for(let N=0,O=B.length;N<O;N++){let z=B[N],Y=Array.isArray(z.value)?z.value:[z.value],L=Array.isArray(I[y])||Array.isArray(z.value),$=A;for(let H=0,rt=Y.length;H<rt;H++){let X=Y[H],tt=S(X,L),et=A%C,Et=et%tt.boundary,Gt=et+Et;A+=Et,Gt!==0&&C-Gt<tt.storage&&(A+=C-Gt),H===0&&($=A),A+=tt.storage}let j=z.type==="int"?Int32Array:z.type==="uint"?Uint32Array:Float32Array;z.__data=new j((A-$)/Float32Array.BYTES_PER_ELEMENT),z.__offset=$}}let E=A%C;return E>0&&(A+=C-E),b.__size=A,b.__cache={},this}function S(b,I){let A={boundary:0,storage:0};return typeof b=="number"||typeof b=="boolean"?(A.boundary=4,A.storage=4):b.isVector2?(A.boundary=8,A.storage=8):b.isVector3||b.isColor?(A.boundary=16,A.storage=12):b.isVector4?(A.boundary=16,A.storage=16):b.isMatrix3?(A.boundary=16,A.storage=48):b.isMatrix4?(A.boundary=16,A.storage=64):b.isTexture?Ut("WebGLRenderer: Texture samplers can not be part of an uniforms group."):ArrayBuffer.isView(b)?(A.boundary=16,A.storage=b.byteLength):Ut("WebGLRenderer: Unsupported uniform value type.",b),I===!0&&(A.boundary=16,A.storage=Math.ceil(A.storage/16)*16),A}function g(b){let I=b.target;I.removeEventListener("dispose",g),i.deleteBuffer(s[I.id]),delete s[I.id],delete r[I.id]}function _(){for(let b in s)i.deleteBuffer(s[b]);s={},r={}}return{bind:o,update:a,dispose:_}}var hA=new Uint16Array([12469,15057,12620,14925,13266,14620,13807,14376,14323,13990,14545,13625,14713,13328,14840,12882,14931,12528,14996,12233,15039,11829,15066,11525,15080,11295,15085,10976,15082,10705,15073,10495,13880,14564,13898,14542,13977,14430,14158,14124,14393,13732,14556,13410,14702,12996,14814,12596,14891,12291,14937,11834,14957,11489,14958,11194,14943,10803,14921,10506,14893,10278,14858,9960,14484,14039,14487,14025,14499,13941,14524,13740,14574,13468,14654,13106,14743,12678,14818,12344,14867,11893,14889,11509,14893,11180,14881,10751,14852,10428,14812,10128,14765,9754,14712,9466,14764,13480,14764,13475,14766,13440,14766,13347,14769,13070,14786,12713,14816,12387,14844,11957,14860,11549,14868,11215,14855,10751,14825,10403,14782,10044,14729,9651,14666,9352,14599,9029,14967,12835,14966,12831,14963,12804,14954,12723,14936,12564,14917,12347,14900,11958,14886,11569,14878,11247,14859,10765,14828,10401,14784,10011,14727,9600,14660,9289,14586,8893,14508,8533,15111,12234,15110,12234,15104,12216,15092,12156,15067,12010,15028,11776,14981,11500,14942,11205,14902,10752,14861,10393,14812,9991,14752,9570,14682,9252,14603,8808,14519,8445,14431,8145,15209,11449,15208,11451,15202,11451,15190,11438,15163,11384,15117,11274,15055,10979,14994,10648,14932,10343,14871,9936,14803,9532,14729,9218,14645,8742,14556,8381,14461,8020,14365,7603,15273,10603,15272,10607,15267,10619,15256,10631,15231,10614,15182,10535,15118,10389,15042,10167,14963,9787,14883,9447,14800,9115,14710,8665,14615,8318,14514,7911,14411,7507,14279,7198,15314,9675,15313,9683,15309,9712,15298,9759,15277,9797,15229,9773,15166,9668,15084,9487,14995,9274,14898,8910,14800,8539,14697,8234,14590,7790,14479,7409,14367,7067,14178,6621,15337,8619,15337,8631,15333,8677,15325,8769,15305,8871,15264,8940,15202,8909,15119,8775,15022,8565,14916,8328,14804,8009,14688,7614,14569,7287,14448,6888,14321,6483,14088,6171,15350,7402,15350,7419,15347,7480,15340,7613,15322,7804,15287,7973,15229,8057,15148,8012,15046,7846,14933,7611,14810,7357,14682,7069,14552,6656,14421,6316,14251,5948,14007,5528,15356,5942,15356,5977,15353,6119,15348,6294,15332,6551,15302,6824,15249,7044,15171,7122,15070,7050,14949,6861,14818,6611,14679,6349,14538,6067,14398,5651,14189,5311,13935,4958,15359,4123,15359,4153,15356,4296,15353,4646,15338,5160,15311,5508,15263,5829,15188,6042,15088,6094,14966,6001,14826,5796,14678,5543,14527,5287,14377,4985,14133,4586,13869,4257,15360,1563,15360,1642,15358,2076,15354,2636,15341,3350,15317,4019,15273,4429,15203,4732,15105,4911,14981,4932,14836,4818,14679,4621,14517,4386,14359,4156,14083,3795,13808,3437,15360,122,15360,137,15358,285,15355,636,15344,1274,15322,2177,15281,2765,15215,3223,15120,3451,14995,3569,14846,3567,14681,3466,14511,3305,14344,3121,14037,2800,13753,2467,15360,0,15360,1,15359,21,15355,89,15346,253,15325,479,15287,796,15225,1148,15133,1492,15008,1749,14856,1882,14685,1886,14506,1783,14324,1608,13996,1398,13702,1183]),di=null;function uA(){return di===null&&(di=new Js(hA,16,16,Zi,Qn),di.name="DFG_LUT",di.minFilter=Ge,di.magFilter=Ge,di.wrapS=oi,di.wrapT=oi,di.generateMipmaps=!1,di.needsUpdate=!0),di}var dc=class{constructor(t={}){let{canvas:e=Z0(),context:n=null,depth:s=!0,stencil:r=!1,alpha:o=!1,antialias:a=!1,premultipliedAlpha:l=!0,preserveDrawingBuffer:c=!1,powerPreference:h="default",failIfMajorPerformanceCaveat:d=!1,reversedDepthBuffer:u=!1,outputBufferType:f=Sn}=t;this.isWebGLRenderer=!0;let m;if(n!==null){if(typeof WebGLRenderingContext<"u"&&n instanceof WebGLRenderingContext)throw new Error("THREE.WebGLRenderer: WebGL 1 is not supported since r163.");m=n.getContextAttributes().alpha}else m=o;let S=f,g=new Set([Ll,Pl,Il]),_=new Set([Sn,Kn,ir,fs,Cl,Rl]),b=new Uint32Array(4),I=new Int32Array(4),A={textures:[],min:[],max:[],resolution:[]},C=null,E=null,y=[],T=[],B=null;this.domElement=e,this.debug={checkShaderErrors:!0,diagnostics:{keywords:!1},onShaderError:null},this.autoClear=!0,this.autoClearColor=!0,this.autoClearDepth=!0,this.autoClearStencil=!0,this.sortObjects=!0,this.clippingPlanes=[],this.localClippingEnabled=!1,this.toneMapping=ui,this.toneMappingExposure=1,this.transmissionResolutionScale=1;let N=this,O=!1,z=null,Y=null,L=null,$=null;this._outputColorSpace=xn;let j=0,H=0,rt=null,X=-1,tt=null,et=new xe,Et=new xe,Gt=null,Z=new ee(0),yt=0,wt=e.width,Nt=e.height,Mt=1,Ht=null,we=null,Ot=new xe(0,0,wt,Nt),re=new xe(0,0,wt,Nt),ae=!1,Yt=new cs,Ve=new cl,Ie=!1,cn=!1,me=new ye,ti=new V,Oe=new xe,wn={background:null,fog:null,environment:null,overrideMaterial:null,isScene:!0},Tn=!1;function An(){return rt===null?Mt:1}let D=n;function En(M,P){return e.getContext(M,P)}let fe,pe,gt,Pe,Dt,zt,w,v,F,it,Q,ct,pt,q,J,ut,R,K,W,dt,at,ht,Pt;try{let M={alpha:!0,depth:s,stencil:r,antialias:a,premultipliedAlpha:l,preserveDrawingBuffer:c,powerPreference:h,failIfMajorPerformanceCaveat:d};if("setAttribute"in e&&e.setAttribute("data-engine",`three.js r${"187"}`),e.addEventListener("webglcontextlost",Lt,!1),e.addEventListener("webglcontextrestored",Wt,!1),e.addEventListener("webglcontextcreationerror",_t,!1),D===null){let P="webgl2";if(D=En(P,M),D===null)throw En(P)?new Error("THREE.WebGLRenderer: Error creating WebGL context with your selected attributes."):new Error("THREE.WebGLRenderer: Error creating WebGL context.")}Xt()}catch(M){throw e.removeEventListener("webglcontextlost",Lt,!1),e.removeEventListener("webglcontextrestored",Wt,!1),e.removeEventListener("webglcontextcreationerror",_t,!1),Ft("WebGLRenderer: "+M.message),M}function Xt(){fe=new S1(D),fe.init(),at=new sA(D,fe),pe=new u1(D,fe,t,at),gt=new nA(D,fe),pe.reversedDepthBuffer&&u&&gt.buffers.depth.setReversed(!0),Y=D.createFramebuffer(),L=D.createFramebuffer(),$=D.createFramebuffer(),Pe=new T1(D),Dt=new VT,zt=new iA(D,fe,gt,Dt,pe,at,Pe),w=new M1(N),v=new ES(D),ht=new c1(D,v),F=new b1(D,v,Pe,ht),it=new E1(D,F,v,ht,Pe),K=new A1(D,pe,zt),J=new d1(Dt),Q=new GT(N,w,fe,pe,ht,J),ct=new lA(N,Dt),pt=new WT,q=new ZT(fe),R=new l1(N,w,gt,it,m,l),ut=new eA(N,it,pe),Pt=new cA(D,Pe,pe,gt),W=new h1(D,fe,Pe),dt=new w1(D,fe,Pe),Pe.programs=Q.programs,N.capabilities=pe,N.extensions=fe,N.properties=Dt,N.renderLists=pt,N.shadowMap=ut,N.state=gt,N.info=Pe}S!==Sn&&(B=new R1(S,e.width,e.height,a,s,r));let ot=new Ad(N,D);this.xr=ot,this.getContext=function(){return D},this.getContextAttributes=function(){return D.getContextAttributes()},this.forceContextLoss=function(){let M=fe.get("WEBGL_lose_context");M&&M.loseContext()},this.forceContextRestore=function(){let M=fe.get("WEBGL_lose_context");M&&M.restoreContext()},this.getPixelRatio=function(){return Mt},this.setPixelRatio=function(M){M!==void 0&&(Mt=M,this.setSize(wt,Nt,!1))},this.getSize=function(M){return M.set(wt,Nt)},this.setSize=function(M,P,G=!0){if(ot.isPresenting){Ut("WebGLRenderer: Can't change size while VR device is presenting.");return}wt=M,Nt=P,e.width=Math.floor(M*Mt),e.height=Math.floor(P*Mt),G===!0&&(e.style.width=M+"px",e.style.height=P+"px"),B!==null&&B.setSize(e.width,e.height),this.setViewport(0,0,M,P)},this.getDrawingBufferSize=function(M){return M.set(wt*Mt,Nt*Mt).floor()},this.setDrawingBufferSize=function(M,P,G){wt=M,Nt=P,Mt=G,e.width=Math.floor(M*G),e.height=Math.floor(P*G),this.setViewport(0,0,M,P)},this.setEffects=function(M){if(S===Sn){Ft("WebGLRenderer: setEffects() requires outputBufferType set to HalfFloatType or FloatType.");return}if(M){for(let P=0;P<M.length;P++)if(M[P].isOutputPass===!0){Ut("WebGLRenderer: OutputPass is not needed in setEffects(). Tone mapping and color space conversion are applied automatically.");break}}B.setEffects(M||[])},this.getCurrentViewport=function(M){return M.copy(et)},this.getViewport=function(M){return M.copy(Ot)},this.setViewport=function(M,P,G,U){M.isVector4?Ot.set(M.x,M.y,M.z,M.w):Ot.set(M,P,G,U),gt.viewport(et.copy(Ot).multiplyScalar(An()).round())},this.getScissor=function(M){return M.copy(re)},this.setScissor=function(M,P,G,U){M.isVector4?re.set(M.x,M.y,M.z,M.w):re.set(M,P,G,U),gt.scissor(Et.copy(re).multiplyScalar(An()).round())},this.getScissorTest=function(){return ae},this.setScissorTest=function(M){gt.setScissorTest(ae=M)},this.setOpaqueSort=function(M){Ht=M},this.setTransparentSort=function(M){we=M},this.getClearColor=function(M){return M.copy(R.getClearColor())},this.setClearColor=function(){R.setClearColor(...arguments)},this.getClearAlpha=function(){return R.getClearAlpha()},this.setClearAlpha=function(){R.setClearAlpha(...arguments)},this.clear=function(M=!0,P=!0,G=!0){let U=0;if(M){let k=!1;if(rt!==null){let mt=rt.texture.format;k=g.has(mt)}if(k){let mt=rt.texture.type,bt=_.has(mt),ft=R.getClearColor(),St=R.getClearAlpha(),Ct=ft.r,Vt=ft.g,Jt=ft.b;bt?(b[0]=Ct,b[1]=Vt,b[2]=Jt,b[3]=St,D.clearBufferuiv(D.COLOR,0,b)):(I[0]=Ct,I[1]=Vt,I[2]=Jt,I[3]=St,D.clearBufferiv(D.COLOR,0,I))}else U|=D.COLOR_BUFFER_BIT}P&&(U|=D.DEPTH_BUFFER_BIT,this.state.buffers.depth.setMask(!0)),G&&(U|=D.STENCIL_BUFFER_BIT,this.state.buffers.stencil.setMask(4294967295)),U!==0&&D.clear(U)},this.clearColor=function(){this.clear(!0,!1,!1)},this.clearDepth=function(){this.clear(!1,!0,!1)},this.clearStencil=function(){this.clear(!1,!1,!0)},this.setNodesHandler=function(M){M.setRenderer(this),z=M},this.dispose=function(){e.removeEventListener("webglcontextlost",Lt,!1),e.removeEventListener("webglcontextrestored",Wt,!1),e.removeEventListener("webglcontextcreationerror",_t,!1),R.dispose(),pt.dispose(),q.dispose(),zt.dispose(),Dt.dispose(),w.dispose(),it.dispose(),F.dispose(),ht.dispose(),Pt.dispose(),Q.dispose(),ot.dispose(),ot.removeEventListener("sessionstart",ff),ot.removeEventListener("sessionend",pf),Ki.stop()};function Lt(M){M.preventDefault(),od("WebGLRenderer: Context Lost."),O=!0}function Wt(){od("WebGLRenderer: Context Restored."),O=!1;let M=Pe.autoReset,P=ut.enabled,G=ut.autoUpdate,U=ut.needsUpdate,k=ut.type;Xt(),Pe.autoReset=M,ut.enabled=P,ut.autoUpdate=G,ut.needsUpdate=U,ut.type=k}function _t(M){Ft("WebGLRenderer: A WebGL context could not be created. Reason: ",M.statusMessage)}function oe(M){let P=M.target;P.removeEventListener("dispose",oe),Ue(P)}function Ue(M){Li(M),Dt.remove(M)}function Li(M){let P=Dt.get(M).programs;P!==void 0&&(P.forEach(function(G){Q.releaseProgram(G)}),M.isShaderMaterial&&Q.releaseShaderCache(M))}this.renderBufferDirect=function(M,P,G,U,k,mt){P===null&&(P=wn);let bt=k.isMesh&&k.matrixWorld.determinantAffine()<0,ft=sy(M,P,G,U,k);gt.setMaterial(U,bt);let St=G.index,Ct=1;if(U.wireframe===!0){if(St=F.getWireframeAttribute(G),St===void 0)return;Ct=2}let Vt=G.drawRange,Jt=G.attributes.position,Tt=Vt.start*Ct,Zt=(Vt.start+Vt.count)*Ct;mt!==null&&(Tt=Math.max(Tt,mt.start*Ct),Zt=Math.min(Zt,(mt.start+mt.count)*Ct)),St!==null?(Tt=Math.max(Tt,0),Zt=Math.min(Zt,St.count)):Jt!=null&&(Tt=Math.max(Tt,0),Zt=Math.min(Zt,Jt.count));let Te=Zt-Tt;if(Te<0||Te===1/0)return;ht.setup(k,U,ft,G,St);let ce,le=W;if(St!==null&&(ce=v.get(St),le=dt,le.setIndex(ce)),k.isMesh)U.wireframe===!0?(gt.setLineWidth(U.wireframeLinewidth*An()),le.setMode(D.LINES)):le.setMode(D.TRIANGLES);else if(k.isLine){let Ze=U.linewidth;Ze===void 0&&(Ze=1),gt.setLineWidth(Ze*An()),k.isLineSegments?le.setMode(D.LINES):k.isLineLoop?le.setMode(D.LINE_LOOP):le.setMode(D.LINE_STRIP)}else k.isPoints?le.setMode(D.POINTS):k.isSprite&&le.setMode(D.TRIANGLES);if(k.isBatchedMesh)if(fe.get("WEBGL_multi_draw"))le.renderMultiDraw(k._multiDrawStarts,k._multiDrawCounts,k._multiDrawCount);else{let Ze=k._multiDrawStarts,At=k._multiDrawCounts,rn=k._multiDrawCount,ie=St?v.get(St).bytesPerElement:1,ji=Dt.get(U).currentProgram.getUniforms();for(let Ke=0;Ke<rn;Ke++)ji.setValue(D,"_gl_DrawID",Ke),le.render(Ze[Ke]/ie,At[Ke])}else if(k.isInstancedMesh)le.renderInstances(Tt,Te,k.count);else if(G.isInstancedBufferGeometry){let Ze=G._maxInstanceCount!==void 0?G._maxInstanceCount:1/0,At=Math.min(G.instanceCount,Ze);le.renderInstances(Tt,Te,At)}else le.render(Tt,Te)};function df(M,P,G,U){z!==null&&M.isNodeMaterial&&z.setObject(U,M),Ie===!0&&J.setState(M,G,!1),M.transparent===!0&&M.side===Bn&&M.forceSinglePass===!1?(M.side=ln,M.needsUpdate=!0,dr(M,P,U),M.side=hi,M.needsUpdate=!0,dr(M,P,U),M.side=Bn):dr(M,P,U)}this.compile=function(M,P,G=null){G===null&&(G=M),z!==null&&z.renderStart(M,P,G),E=q.get(G),E.init(P),T.push(E),G.traverseVisible(function(k){k.isLight&&k.layers.test(P.layers)&&(E.pushLight(k),k.castShadow&&E.pushShadow(k))}),M!==G&&M.traverseVisible(function(k){k.isLight&&k.layers.test(P.layers)&&(E.pushLight(k),k.castShadow&&E.pushShadow(k))}),E.setupLights(),z!==null&&z.updateLights(E.state.lightsArray),cn=this.localClippingEnabled,Ie=J.init(this.clippingPlanes,cn),Ie===!0&&J.setGlobalState(this.clippingPlanes,P),z!==null&&ut.render(E.state.shadowsArray,G,P);let U=new Set;return M.traverse(function(k){if(!(k.isMesh||k.isPoints||k.isLine||k.isSprite))return;let mt=k.material;if(mt)if(Array.isArray(mt))for(let bt=0;bt<mt.length;bt++){let ft=mt[bt];df(ft,G,P,k),U.add(ft)}else df(mt,G,P,k),U.add(mt)}),E=T.pop(),z!==null&&z.renderEnd(),U},this.compileAsync=function(M,P,G=null){let U=this.compile(M,P,G);return new Promise(k=>{function mt(){if(U.forEach(function(bt){let St=Dt.get(bt).currentProgram;(St===void 0||St.isReady())&&U.delete(bt)}),U.size===0){k(M);return}setTimeout(mt,10)}fe.get("KHR_parallel_shader_compile")!==null?mt():setTimeout(mt,10)})};let Zc=null;function ny(M){Zc&&Zc(M)}function ff(){Ki.stop()}function pf(){Ki.start()}let Ki=new A_;Ki.setAnimationLoop(ny),typeof self<"u"&&Ki.setContext(self),this.setAnimationLoop=function(M){Zc=M,ot.setAnimationLoop(M),M===null?Ki.stop():Ki.start()},ot.addEventListener("sessionstart",ff),ot.addEventListener("sessionend",pf),this.render=function(M,P){if(P!==void 0&&P.isCamera!==!0){Ft("WebGLRenderer.render: camera is not an instance of THREE.Camera.");return}if(O===!0)return;z!==null&&z.renderStart(M,P);let G=ot.enabled===!0&&ot.isPresenting===!0,U=B!==null&&(rt===null||G)&&B.begin(N,rt);if(M.matrixWorldAutoUpdate===!0&&M.updateMatrixWorld(),P.parent===null&&P.matrixWorldAutoUpdate===!0&&P.updateMatrixWorld(),ot.enabled===!0&&ot.isPresenting===!0&&(B===null||B.isCompositing()===!1)&&(ot.cameraAutoUpdate===!0&&ot.updateCamera(P),P=ot.getCamera()),M.isScene===!0&&M.onBeforeRender(N,M,P,rt),E=q.get(M,T.length),E.init(P),E.state.textureUnits=zt.getTextureUnits(),T.push(E),me.multiplyMatrices(P.projectionMatrix,P.matrixWorldInverse),P.isArrayCamera?Ve.setFromArrayCamera(P):Yt.setFromProjectionMatrix(me,On,P.reversedDepth),cn=this.localClippingEnabled,Ie=J.init(this.clippingPlanes,cn),C=pt.get(M,y.length),C.init(),y.push(C),this.info.render.frame++,ot.enabled===!0&&ot.isPresenting===!0){let bt=N.xr.getDepthSensingMesh();bt!==null&&Kc(bt,P,-1/0,N.sortObjects)}Kc(M,P,0,N.sortObjects),C.finish(),z!==null&&z.updateLights(E.state.lightsArray),N.sortObjects===!0&&C.sort(Ht,we),Tn=ot.enabled===!1||ot.isPresenting===!1||ot.hasDepthSensing()===!1,Tn&&R.addToRenderList(C,M),this.info.autoReset===!0&&this.info.reset(),Ie===!0&&J.beginShadows();let k=E.state.shadowsArray;if(ut.render(k,M,P),Ie===!0&&J.endShadows(),(U&&B.hasRenderPass())===!1){let bt=C.opaque,ft=C.transmissive;if(E.setupLights(),P.isArrayCamera){let St=P.cameras;if(ft.length>0)for(let Ct=0,Vt=St.length;Ct<Vt;Ct++){let Jt=St[Ct];gf(bt,ft,M,Jt)}Tn&&R.render(M);for(let Ct=0,Vt=St.length;Ct<Vt;Ct++){let Jt=St[Ct];mf(C,M,Jt,Jt.viewport)}}else ft.length>0&&gf(bt,ft,M,P),Tn&&R.render(M),mf(C,M,P)}rt!==null&&H===0&&(zt.updateMultisampleRenderTarget(rt),zt.updateRenderTargetMipmap(rt)),U&&B.end(N),M.isScene===!0&&M.onAfterRender(N,M,P),ht.resetDefaultState(),X=-1,tt=null,T.pop(),T.length>0?(E=T[T.length-1],zt.setTextureUnits(E.state.textureUnits),Ie===!0&&J.setGlobalState(N.clippingPlanes,E.state.camera)):E=null,y.pop(),y.length>0?C=y[y.length-1]:C=null,z!==null&&z.renderEnd()};function Kc(M,P,G,U){if(M.visible===!1)return;if(M.layers.test(P.layers)){if(M.isGroup)G=M.renderOrder;else if(M.isLOD)M.autoUpdate===!0&&M.update(P);else if(M.isLight)E.pushLight(M),M.castShadow&&E.pushShadow(M);else if(M.isSprite){let bt=P.isArrayCamera?Ve:Yt;if(!M.frustumCulled||M.intersectsFrustum(bt)){U&&Oe.setFromMatrixPosition(M.matrixWorld).applyMatrix4(me);let ft=it.update(M),St=M.material;St.visible&&C.push(M,ft,St,G,Oe.z,null,P)}}else if(M.isMesh||M.isLine||M.isPoints){let bt=P.isArrayCamera?Ve:Yt;if(!M.frustumCulled||M.intersectsFrustum(bt)){let ft=it.update(M),St=M.material;if(U&&(M.boundingSphere!==void 0?(M.boundingSphere===null&&M.computeBoundingSphere(),Oe.copy(M.boundingSphere.center)):(ft.boundingSphere===null&&ft.computeBoundingSphere(),Oe.copy(ft.boundingSphere.center)),Oe.applyMatrix4(M.matrixWorld).applyMatrix4(me)),Array.isArray(St)){let Ct=ft.groups;for(let Vt=0,Jt=Ct.length;Vt<Jt;Vt++){let Tt=Ct[Vt],Zt=St[Tt.materialIndex];Zt&&Zt.visible&&C.push(M,ft,Zt,G,Oe.z,Tt,P)}}else St.visible&&C.push(M,ft,St,G,Oe.z,null,P)}}}let mt=M.children;for(let bt=0,ft=mt.length;bt<ft;bt++)Kc(mt[bt],P,G,U)}function mf(M,P,G,U){let{opaque:k,transmissive:mt,transparent:bt}=M;E.setupLightsView(G),Ie===!0&&J.setGlobalState(N.clippingPlanes,G),U&&gt.viewport(et.copy(U)),k.length>0&&Co(k,P,G),mt.length>0&&Co(mt,P,G),bt.length>0&&Co(bt,P,G),gt.buffers.depth.setTest(!0),gt.buffers.depth.setMask(!0),gt.buffers.color.setMask(!0),gt.setPolygonOffset(!1)}function gf(M,P,G,U){if((G.isScene===!0?G.overrideMaterial:null)!==null)return;if(E.state.transmissionRenderTarget[U.id]===void 0){let Tt=fe.has("EXT_color_buffer_half_float")||fe.has("EXT_color_buffer_float");E.state.transmissionRenderTarget[U.id]=new vn(1,1,{generateMipmaps:!0,type:Tt?Qn:Sn,minFilter:Ci,samples:Math.max(4,pe.samples),stencilBuffer:r,resolveDepthBuffer:!1,resolveStencilBuffer:!1,storeMultisampledDepthBuffer:!1,storeMultisampledStencilBuffer:!1,colorSpace:Kt.workingColorSpace})}let mt=E.state.transmissionRenderTarget[U.id],bt=U.viewport||et;mt.setSize(bt.z*N.transmissionResolutionScale,bt.w*N.transmissionResolutionScale);let ft=N.getRenderTarget(),St=N.getActiveCubeFace(),Ct=N.getActiveMipmapLevel();N.setRenderTarget(mt),N.getClearColor(Z),yt=N.getClearAlpha(),yt<1&&N.setClearColor(16777215,.5),N.clear(),Tn&&R.render(G);let Vt=N.toneMapping;N.toneMapping=ui;let Jt=U.viewport;if(U.viewport!==void 0&&(U.viewport=void 0),E.setupLightsView(U),Ie===!0&&J.setGlobalState(N.clippingPlanes,U),Co(M,G,U),zt.updateMultisampleRenderTarget(mt),zt.updateRenderTargetMipmap(mt),fe.has("WEBGL_multisampled_render_to_texture")===!1){let Tt=!1;for(let Zt=0,Te=P.length;Zt<Te;Zt++){let ce=P[Zt],{object:le,geometry:Ze,material:At,group:rn}=ce;if(At.side===Bn&&le.layers.test(U.layers)){let ie=At.side;At.side=ln,At.needsUpdate=!0,_f(le,G,U,Ze,At,rn),At.side=ie,At.needsUpdate=!0,Tt=!0}}Tt===!0&&(zt.updateMultisampleRenderTarget(mt),zt.updateRenderTargetMipmap(mt))}N.setRenderTarget(ft,St,Ct),N.setClearColor(Z,yt),Jt!==void 0&&(U.viewport=Jt),N.toneMapping=Vt}function Co(M,P,G){let U=P.isScene===!0?P.overrideMaterial:null;for(let k=0,mt=M.length;k<mt;k++){let bt=M[k],{object:ft,geometry:St,group:Ct}=bt,Vt=bt.material;Vt.allowOverride===!0&&U!==null&&(Vt=U),ft.layers.test(G.layers)&&_f(ft,P,G,St,Vt,Ct)}}function _f(M,P,G,U,k,mt){z!==null&&k.isNodeMaterial&&z.setObject(M,k),M.onBeforeRender(N,P,G,U,k,mt),M.modelViewMatrix.multiplyMatrices(G.matrixWorldInverse,M.matrixWorld),M.normalMatrix.getNormalMatrix(M.modelViewMatrix),k.onBeforeRender(N,P,G,U,M,mt),k.transparent===!0&&k.side===Bn&&k.forceSinglePass===!1?(k.side=ln,k.needsUpdate=!0,N.renderBufferDirect(G,P,U,k,M,mt),k.side=hi,k.needsUpdate=!0,N.renderBufferDirect(G,P,U,k,M,mt),k.side=Bn):N.renderBufferDirect(G,P,U,k,M,mt),M.onAfterRender(N,P,G,U,k,mt)}function xf(M){let P=0;for(let G of M)G.texture!==null&&P++;return P}function dr(M,P,G){P.isScene!==!0&&(P=wn);let U=Dt.get(M),k=E.state.lights,mt=E.state.shadowsArray,bt=k.state.version,ft=Q.getParameters(M,k.state,mt,P,G,E.state.lightProbeGridArray),St=Q.getProgramCacheKey(ft),Ct=U.programs;U.environment=M.isMeshStandardMaterial||M.isMeshLambertMaterial||M.isMeshPhongMaterial?P.environment:null,U.fog=P.fog;let Vt=M.isMeshStandardMaterial||M.isMeshLambertMaterial&&!M.envMap||M.isMeshPhongMaterial&&!M.envMap;U.envMap=w.get(M.envMap||U.environment,Vt),U.envMapRotation=U.environment!==null&&M.envMap===null?P.environmentRotation:M.envMapRotation,Ct===void 0&&(M.addEventListener("dispose",oe),Ct=new Map,U.programs=Ct,U.programVariants=new Map);let Jt=Ct.get(St);if(Jt!==void 0){if(U.currentProgram===Jt&&U.lightsStateVersion===bt)return vf(M,ft),Jt}else ft.uniforms=Q.getUniforms(M),z!==null&&M.isNodeMaterial&&z.build(M,G,ft),M.onBeforeCompile(ft,N),Jt=Q.acquireProgram(ft,St),Ct.set(St,Jt),U.uniforms=ft.uniforms;let Tt=U.uniforms;return(!M.isShaderMaterial&&!M.isRawShaderMaterial||M.clipping===!0)&&(Tt.clippingPlanes=J.uniform),vf(M,ft),U.needsLights=oy(M),U.lightsStateVersion=bt,U.needsLights&&(Tt.ambientLightColor.value=k.state.ambient,Tt.lightProbe.value=k.state.probe,Tt.sunLights.value=k.state.sun,Tt.sunLightShadows.value=k.state.sunShadow,Tt.directionalLights.value=k.state.directional,Tt.directionalLightShadows.value=k.state.directionalShadow,Tt.spotLights.value=k.state.spot,Tt.spotLightShadows.value=k.state.spotShadow,Tt.rectAreaLights.value=k.state.rectArea,Tt.ltc_1.value=k.state.rectAreaLTC1,Tt.ltc_2.value=k.state.rectAreaLTC2,Tt.pointLights.value=k.state.point,Tt.pointLightShadows.value=k.state.pointShadow,Tt.hemisphereLights.value=k.state.hemi,Tt.sunShadowMatrix.value=k.state.sunShadowMatrix,Tt.sunShadowCascade.value=k.state.sunShadowCascade,Tt.directionalShadowMatrix.value=k.state.directionalShadowMatrix,Tt.spotLightMatrix.value=k.state.spotLightMatrix,Tt.spotLightMap.value=k.state.spotLightMap,Tt.pointShadowMatrix.value=k.state.pointShadowMatrix),U.numLightProbeGrids=xf(E.state.lightProbeGridArray),U.currentProgram=Jt,U.uniformsList=null,Jt}function iy(M,P,G,U,k){let mt=Dt.get(M),bt=mt.currentProgram.id+","+U+","+k,ft=mt.programVariants.get(bt);return ft===void 0?(ft=dr(M,P,G),mt.programVariants.set(bt,ft)):(mt.currentProgram=ft,mt.uniformsList=null,mt.outputColorSpace=U,mt.toneMapping=k),ft}function yf(M){if(M.uniformsList===null){let P=M.currentProgram.getUniforms();M.uniformsList=sr.seqWithValue(P.seq,M.uniforms)}return M.uniformsList}function vf(M,P){let G=Dt.get(M);G.outputColorSpace=P.outputColorSpace,G.batching=P.batching,G.batchingColor=P.batchingColor,G.instancing=P.instancing,G.instancingColor=P.instancingColor,G.instancingMorph=P.instancingMorph,G.skinning=P.skinning,G.morphTargets=P.morphTargets,G.morphNormals=P.morphNormals,G.morphColors=P.morphColors,G.morphTargetsCount=P.morphTargetsCount,G.numClippingPlanes=P.numClippingPlanes,G.numIntersection=P.numClipIntersection,G.vertexAlphas=P.vertexAlphas,G.vertexTangents=P.vertexTangents,G.toneMapping=P.toneMapping}function sy(M,P,G,U,k){P.isScene!==!0&&(P=wn),zt.resetTextureUnits();let mt=P.fog,bt=U.isMeshStandardMaterial||U.isMeshLambertMaterial||U.isMeshPhongMaterial?P.environment:null,ft=rt===null?N.outputColorSpace:rt.isXRRenderTarget===!0?rt.texture.colorSpace:Kt.workingColorSpace,St=U.isMeshStandardMaterial||U.isMeshLambertMaterial&&!U.envMap||U.isMeshPhongMaterial&&!U.envMap,Ct=w.get(U.envMap||bt,St),Vt=U.vertexColors===!0&&!!G.attributes.color&&G.attributes.color.itemSize===4,Jt=!!G.attributes.tangent&&(!!U.normalMap||U.anisotropy>0),Tt=!!G.morphAttributes.position,Zt=!!G.morphAttributes.normal,Te=!!G.morphAttributes.color,ce=ui;U.toneMapped&&(rt===null||rt.isXRRenderTarget===!0)&&(ce=N.toneMapping);let le=G.morphAttributes.position||G.morphAttributes.normal||G.morphAttributes.color,Ze=le!==void 0?le.length:0,At=Dt.get(U),rn=E.state.lights;if(Ie===!0&&(cn===!0||M!==tt)){let ge=M===tt&&U.id===X;J.setState(U,M,ge)}let ie=!1,ji=!1;U.version===At.__version?At.needsLights&&At.lightsStateVersion!==rn.state.version||k.isBatchedMesh&&At.batching===!1||!k.isBatchedMesh&&At.batching===!0||k.isBatchedMesh&&At.batchingColor===!0&&k._colorsTexture===null||k.isBatchedMesh&&At.batchingColor===!1&&k._colorsTexture!==null||k.isInstancedMesh&&At.instancing===!1||!k.isInstancedMesh&&At.instancing===!0||k.isSkinnedMesh&&At.skinning===!1||!k.isSkinnedMesh&&At.skinning===!0||k.isInstancedMesh&&At.instancingColor===!0&&k.instanceColor===null||k.isInstancedMesh&&At.instancingColor===!1&&k.instanceColor!==null||k.isInstancedMesh&&At.instancingMorph===!0&&k.morphTexture===null||k.isInstancedMesh&&At.instancingMorph===!1&&k.morphTexture!==null||At.envMap!==Ct||U.fog===!0&&At.fog!==mt||At.numClippingPlanes!==void 0&&(At.numClippingPlanes!==J.numPlanes||At.numIntersection!==J.numIntersection)||At.vertexAlphas!==Vt||At.vertexTangents!==Jt||At.morphTargets!==Tt||At.morphNormals!==Zt||At.morphColors!==Te||At.morphTargetsCount!==Ze||At.numLightProbeGrids!==xf(E.state.lightProbeGridArray)?ie=!0:(At.outputColorSpace!==ft||At.toneMapping!==ce)&&(ji=!0):(ie=!0,At.__version=U.version);let Ke=At.currentProgram;(ie===!0||ji===!0)&&(Ke=ji===!0?iy(U,P,k,ft,ce):dr(U,P,k),z&&U.isNodeMaterial&&z.onUpdateProgram(U,Ke,At));let Ro=!1,Ni=!1,Qi=!1,te=Ke.getUniforms(),He=At.uniforms;if(gt.useProgram(Ke.program)&&(Ro=!0,Ni=!0,Qi=!0),U.id!==X&&(X=U.id,Ni=!0),Ro||tt!==M){gt.buffers.depth.getReversed()&&M.reversedDepth!==!0&&(M._reversedDepth=!0,M.updateProjectionMatrix()),te.setValue(D,"projectionMatrix",M.projectionMatrix),te.setValue(D,"viewMatrix",M.matrixWorldInverse);let Fe=te.map.cameraPosition;Fe!==void 0&&Fe.setValue(D,ti.setFromMatrixPosition(M.matrixWorld)),pe.logarithmicDepthBuffer&&te.setValue(D,"logDepthBufFC",2/(Math.log(M.far+1)/Math.LN2)),(U.isMeshPhongMaterial||U.isMeshToonMaterial||U.isMeshLambertMaterial||U.isMeshBasicMaterial||U.isMeshStandardMaterial||U.isShaderMaterial)&&te.setValue(D,"isOrthographic",M.isOrthographicCamera===!0),tt!==M&&(tt=M,Ni=!0,Qi=!0)}if(At.needsLights&&(rn.state.sunShadowMap.length>0&&te.setValue(D,"sunShadowMap",rn.state.sunShadowMap,zt),rn.state.directionalShadowMap.length>0&&te.setValue(D,"directionalShadowMap",rn.state.directionalShadowMap,zt),rn.state.spotShadowMap.length>0&&te.setValue(D,"spotShadowMap",rn.state.spotShadowMap,zt),rn.state.pointShadowMap.length>0&&te.setValue(D,"pointShadowMap",rn.state.pointShadowMap,zt)),k.isSkinnedMesh){te.setOptional(D,k,"bindMatrix"),te.setOptional(D,k,"bindMatrixInverse");let ge=k.skeleton;ge&&(ge.boneTexture===null&&ge.computeBoneTexture(),te.setValue(D,"boneTexture",ge.boneTexture,zt))}k.isBatchedMesh&&(te.setOptional(D,k,"batchingTexture"),te.setValue(D,"batchingTexture",k._matricesTexture,zt),te.setOptional(D,k,"batchingIdTexture"),te.setValue(D,"batchingIdTexture",k._indirectTexture,zt),te.setOptional(D,k,"batchingColorTexture"),k._colorsTexture!==null&&te.setValue(D,"batchingColorTexture",k._colorsTexture,zt));let Gn=G.morphAttributes;if((Gn.position!==void 0||Gn.normal!==void 0||Gn.color!==void 0)&&K.update(k,G,Ke),(Ni||At.receiveShadow!==k.receiveShadow)&&(At.receiveShadow=k.receiveShadow,te.setValue(D,"receiveShadow",k.receiveShadow)),(U.isMeshStandardMaterial||U.isMeshLambertMaterial||U.isMeshPhongMaterial)&&U.envMap===null&&P.environment!==null&&(He.envMapIntensity.value=P.environmentIntensity),He.dfgLUT!==void 0&&(He.dfgLUT.value=uA()),Ni){if(te.setValue(D,"toneMappingExposure",N.toneMappingExposure),At.needsLights&&ry(He,Qi),mt&&U.fog===!0&&ct.refreshFogUniforms(He,mt),ct.refreshMaterialUniforms(He,U,Mt,Nt,E.state.transmissionRenderTarget[M.id]),At.needsLights&&At.numLightProbeGrids>0){let ge=A,Fe=0;for(let mi of E.state.lightProbeGridArray)mi.texture!==null&&(ge.textures[Fe]=mi.texture,ge.min[Fe]=mi.boundingBox.min,ge.max[Fe]=mi.boundingBox.max,ge.resolution[Fe]=mi.resolution,Fe++);for(let mi in ge)ge[mi].length=Fe;He.probesSH.value=ge.textures,He.probesMin.value=ge.min,He.probesMax.value=ge.max,He.probesResolution.value=ge.resolution}sr.upload(D,yf(At),He,zt)}if(U.isShaderMaterial&&U.uniformsNeedUpdate===!0&&(sr.upload(D,yf(At),He,zt),U.uniformsNeedUpdate=!1),U.isSpriteMaterial&&te.setValue(D,"center",k.center),te.setValue(D,"modelViewMatrix",k.modelViewMatrix),te.setValue(D,"normalMatrix",k.normalMatrix),te.setValue(D,"modelMatrix",k.matrixWorld),U.uniformsGroups!==void 0){let ge=U.uniformsGroups;for(let Fe=0,mi=ge.length;Fe<mi;Fe++){let Sf=ge[Fe];Pt.update(Sf,Ke),Pt.bind(Sf,Ke)}}return Ke}function ry(M,P){M.ambientLightColor.needsUpdate=P,M.lightProbe.needsUpdate=P,M.sunLights.needsUpdate=P,M.sunLightShadows.needsUpdate=P,M.directionalLights.needsUpdate=P,M.directionalLightShadows.needsUpdate=P,M.pointLights.needsUpdate=P,M.pointLightShadows.needsUpdate=P,M.spotLights.needsUpdate=P,M.spotLightShadows.needsUpdate=P,M.rectAreaLights.needsUpdate=P,M.hemisphereLights.needsUpdate=P}function oy(M){return M.isMeshLambertMaterial||M.isMeshToonMaterial||M.isMeshPhongMaterial||M.isMeshStandardMaterial||M.isShadowMaterial||M.isShaderMaterial&&M.lights===!0}this.getActiveCubeFace=function(){return j},this.getActiveMipmapLevel=function(){return H},this.getRenderTarget=function(){return rt},this.setRenderTargetTextures=function(M,P,G){let U=Dt.get(M);U.__autoAllocateDepthBuffer=M.resolveDepthBuffer===!1,U.__autoAllocateDepthBuffer===!1&&(U.__useRenderToTexture=!1),Dt.get(M.texture).__webglTexture=P,Dt.get(M.depthTexture).__webglTexture=U.__autoAllocateDepthBuffer?void 0:G,U.__hasExternalTextures=!0},this.setRenderTargetFramebuffer=function(M,P){let G=Dt.get(M);G.__webglFramebuffer=P,G.__useDefaultFramebuffer=P===void 0},this.setRenderTarget=function(M,P=0,G=0){rt=M,j=P,H=G;let U=null,k=!1,mt=!1;if(M){let ft=Dt.get(M);if(ft.__useDefaultFramebuffer!==void 0){gt.bindFramebuffer(D.FRAMEBUFFER,ft.__webglFramebuffer),et.copy(M.viewport),Et.copy(M.scissor),Gt=M.scissorTest,gt.viewport(et),gt.scissor(Et),gt.setScissorTest(Gt),X=-1;return}else if(ft.__webglFramebuffer===void 0)zt.setupRenderTarget(M);else if(ft.__hasExternalTextures)zt.rebindTextures(M,Dt.get(M.texture).__webglTexture,Dt.get(M.depthTexture).__webglTexture);else if(M.depthBuffer){let Vt=M.depthTexture;if(ft.__boundDepthTexture!==Vt){if(Vt!==null&&Dt.has(Vt)&&(M.width!==Vt.image.width||M.height!==Vt.image.height))throw new Error("THREE.WebGLRenderer: Attached DepthTexture is initialized to the incorrect size.");zt.setupDepthRenderbuffer(M)}}let St=M.texture;(St.isData3DTexture||St.isDataArrayTexture||St.isCompressedArrayTexture)&&(mt=!0);let Ct=Dt.get(M).__webglFramebuffer;M.isWebGLCubeRenderTarget?(Array.isArray(Ct[P])?U=Ct[P][G]:U=Ct[P],k=!0):M.samples>0&&zt.useMultisampledRTT(M)===!1?U=Dt.get(M).__webglMultisampledFramebuffer:Array.isArray(Ct)?U=Ct[G]:U=Ct,et.copy(M.viewport),Et.copy(M.scissor),Gt=M.scissorTest}else et.copy(Ot).multiplyScalar(Mt).floor(),Et.copy(re).multiplyScalar(Mt).floor(),Gt=ae;if(G!==0&&(U=Y),gt.bindFramebuffer(D.FRAMEBUFFER,U)&&gt.drawBuffers(M,U),gt.viewport(et),gt.scissor(Et),gt.setScissorTest(Gt),k){let ft=Dt.get(M.texture);D.framebufferTexture2D(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_CUBE_MAP_POSITIVE_X+P,ft.__webglTexture,G)}else if(mt){let ft=P;for(let St=0;St<M.textures.length;St++){let Ct=Dt.get(M.textures[St]);D.framebufferTextureLayer(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0+St,Ct.__webglTexture,G,ft)}}else if(M!==null&&G!==0){let ft=Dt.get(M.texture);D.framebufferTexture2D(D.FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,ft.__webglTexture,G)}X=-1};function Mf(M){let P=Dt.get(M);return(P.__readFormat!==M.format||P.__readType!==M.type)&&(P.__readFormat=M.format,P.__readType=M.type,P.__formatReadable=pe.textureFormatReadable(M.format),P.__typeReadable=pe.textureTypeReadable(M.type)),P}this.readRenderTargetPixels=function(M,P,G,U,k,mt,bt,ft=0){if(!(M&&M.isWebGLRenderTarget)){Ft("WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.");return}let St=Dt.get(M).__webglFramebuffer;if(M.isWebGLCubeRenderTarget&&bt!==void 0&&(St=St[bt],Array.isArray(St)&&(St=St[0])),St){gt.bindFramebuffer(D.FRAMEBUFFER,St);try{let Ct=M.textures[ft],Vt=Ct.format,Jt=Ct.type;M.textures.length>1&&D.readBuffer(D.COLOR_ATTACHMENT0+ft);let Tt=Mf(Ct);if(Tt.__formatReadable===!1){Ft("WebGLRenderer.readRenderTargetPixels: renderTarget is not in RGBA or implementation defined format.");return}if(Tt.__typeReadable===!1){Ft("WebGLRenderer.readRenderTargetPixels: renderTarget is not in UnsignedByteType or implementation defined type.");return}P>=0&&P<=M.width-U&&G>=0&&G<=M.height-k&&D.readPixels(P,G,U,k,at.convert(Vt),at.convert(Jt),mt)}finally{let Ct=rt!==null?Dt.get(rt).__webglFramebuffer:null;gt.bindFramebuffer(D.FRAMEBUFFER,Ct)}}},this.readRenderTargetPixelsAsync=async function(M,P,G,U,k,mt,bt,ft=0){if(!(M&&M.isWebGLRenderTarget))throw new Error("THREE.WebGLRenderer.readRenderTargetPixels: renderTarget is not THREE.WebGLRenderTarget.");let St=Dt.get(M).__webglFramebuffer;if(M.isWebGLCubeRenderTarget&&bt!==void 0&&(St=St[bt],Array.isArray(St)&&(St=St[0])),St)if(P>=0&&P<=M.width-U&&G>=0&&G<=M.height-k){gt.bindFramebuffer(D.FRAMEBUFFER,St);let Ct=M.textures[ft],Vt=Ct.format,Jt=Ct.type;M.textures.length>1&&D.readBuffer(D.COLOR_ATTACHMENT0+ft);let Tt=Mf(Ct);if(Tt.__formatReadable===!1)throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in RGBA or implementation defined format.");if(Tt.__typeReadable===!1)throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: renderTarget is not in UnsignedByteType or implementation defined type.");let Zt=D.createBuffer();D.bindBuffer(D.PIXEL_PACK_BUFFER,Zt),D.bufferData(D.PIXEL_PACK_BUFFER,mt.byteLength,D.STREAM_READ),D.readPixels(P,G,U,k,at.convert(Vt),at.convert(Jt),0),D.bindBuffer(D.PIXEL_PACK_BUFFER,null);let Te=rt!==null?Dt.get(rt).__webglFramebuffer:null;gt.bindFramebuffer(D.FRAMEBUFFER,Te);let ce=D.fenceSync(D.SYNC_GPU_COMMANDS_COMPLETE,0);return D.flush(),await j0(D,ce,4),D.bindBuffer(D.PIXEL_PACK_BUFFER,Zt),D.getBufferSubData(D.PIXEL_PACK_BUFFER,0,mt),D.bindBuffer(D.PIXEL_PACK_BUFFER,null),D.deleteBuffer(Zt),D.deleteSync(ce),mt}else throw new Error("THREE.WebGLRenderer.readRenderTargetPixelsAsync: requested read bounds are out of range.")},this.copyFramebufferToTexture=function(M,P=null,G=0){let U=Math.pow(2,-G),k=Math.floor(M.image.width*U),mt=Math.floor(M.image.height*U),bt=P!==null?P.x:0,ft=P!==null?P.y:0;zt.setTexture2D(M,0),D.copyTexSubImage2D(D.TEXTURE_2D,G,0,0,bt,ft,k,mt),gt.unbindTexture()},this.copyTextureToTexture=function(M,P,G=null,U=null,k=0,mt=0){let bt,ft,St,Ct,Vt,Jt,Tt,Zt,Te,ce=M.isCompressedTexture?M.mipmaps[mt]:M.image;if(G!==null)bt=G.max.x-G.min.x,ft=G.max.y-G.min.y,St=G.isBox3?G.max.z-G.min.z:1,Ct=G.min.x,Vt=G.min.y,Jt=G.isBox3?G.min.z:0;else{let te=Math.pow(2,-k);bt=Math.floor(ce.width*te),ft=Math.floor(ce.height*te),M.isDataArrayTexture?St=ce.depth:M.isData3DTexture?St=Math.floor(ce.depth*te):St=1,Ct=0,Vt=0,Jt=0}U!==null?(Tt=U.x,Zt=U.y,Te=U.z):(Tt=0,Zt=0,Te=0);let le=at.convert(P.format),Ze=at.convert(P.type),At;P.isData3DTexture?(zt.setTexture3D(P,0),At=D.TEXTURE_3D):P.isDataArrayTexture||P.isCompressedArrayTexture?(zt.setTexture2DArray(P,0),At=D.TEXTURE_2D_ARRAY):(zt.setTexture2D(P,0),At=D.TEXTURE_2D),gt.activeTexture(D.TEXTURE0),gt.pixelStorei(D.UNPACK_FLIP_Y_WEBGL,P.flipY),gt.pixelStorei(D.UNPACK_PREMULTIPLY_ALPHA_WEBGL,P.premultiplyAlpha),gt.pixelStorei(D.UNPACK_ALIGNMENT,P.unpackAlignment);let rn=gt.getParameter(D.UNPACK_ROW_LENGTH),ie=gt.getParameter(D.UNPACK_IMAGE_HEIGHT),ji=gt.getParameter(D.UNPACK_SKIP_PIXELS),Ke=gt.getParameter(D.UNPACK_SKIP_ROWS),Ro=gt.getParameter(D.UNPACK_SKIP_IMAGES);gt.pixelStorei(D.UNPACK_ROW_LENGTH,ce.width),gt.pixelStorei(D.UNPACK_IMAGE_HEIGHT,ce.height),gt.pixelStorei(D.UNPACK_SKIP_PIXELS,Ct),gt.pixelStorei(D.UNPACK_SKIP_ROWS,Vt),gt.pixelStorei(D.UNPACK_SKIP_IMAGES,Jt);let Ni=M.isDataArrayTexture||M.isData3DTexture,Qi=P.isDataArrayTexture||P.isData3DTexture;if(M.isDepthTexture){let te=Dt.get(M),He=Dt.get(P),Gn=Dt.get(te.__renderTarget),ge=Dt.get(He.__renderTarget);gt.bindFramebuffer(D.READ_FRAMEBUFFER,Gn.__webglFramebuffer),gt.bindFramebuffer(D.DRAW_FRAMEBUFFER,ge.__webglFramebuffer);for(let Fe=0;Fe<St;Fe++)Ni&&(D.framebufferTextureLayer(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,Dt.get(M).__webglTexture,k,Jt+Fe),D.framebufferTextureLayer(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,Dt.get(P).__webglTexture,mt,Te+Fe)),D.blitFramebuffer(Ct,Vt,Ct+bt,Vt+ft,Tt,Zt,Tt+bt,Zt+ft,D.DEPTH_BUFFER_BIT,D.NEAREST);gt.bindFramebuffer(D.READ_FRAMEBUFFER,null),gt.bindFramebuffer(D.DRAW_FRAMEBUFFER,null)}else if(k!==0||M.isRenderTargetTexture||Dt.has(M)){let te=Dt.get(M),He=Dt.get(P);gt.bindFramebuffer(D.READ_FRAMEBUFFER,L),gt.bindFramebuffer(D.DRAW_FRAMEBUFFER,$);for(let Gn=0;Gn<St;Gn++)Ni?D.framebufferTextureLayer(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,te.__webglTexture,k,Jt+Gn):D.framebufferTexture2D(D.READ_FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,te.__webglTexture,k),Qi?D.framebufferTextureLayer(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,He.__webglTexture,mt,Te+Gn):D.framebufferTexture2D(D.DRAW_FRAMEBUFFER,D.COLOR_ATTACHMENT0,D.TEXTURE_2D,He.__webglTexture,mt),k!==0?D.blitFramebuffer(Ct,Vt,Ct+bt,Vt+ft,Tt,Zt,Tt+bt,Zt+ft,D.COLOR_BUFFER_BIT,D.NEAREST):Qi?D.copyTexSubImage3D(At,mt,Tt,Zt,Te+Gn,Ct,Vt,bt,ft):D.copyTexSubImage2D(At,mt,Tt,Zt,Ct,Vt,bt,ft);gt.bindFramebuffer(D.READ_FRAMEBUFFER,null),gt.bindFramebuffer(D.DRAW_FRAMEBUFFER,null)}else Qi?M.isDataTexture||M.isData3DTexture?D.texSubImage3D(At,mt,Tt,Zt,Te,bt,ft,St,le,Ze,ce.data):P.isCompressedArrayTexture?D.compressedTexSubImage3D(At,mt,Tt,Zt,Te,bt,ft,St,le,ce.data):D.texSubImage3D(At,mt,Tt,Zt,Te,bt,ft,St,le,Ze,ce):M.isDataTexture?D.texSubImage2D(D.TEXTURE_2D,mt,Tt,Zt,bt,ft,le,Ze,ce.data):M.isCompressedTexture?D.compressedTexSubImage2D(D.TEXTURE_2D,mt,Tt,Zt,ce.width,ce.height,le,ce.data):D.texSubImage2D(D.TEXTURE_2D,mt,Tt,Zt,bt,ft,le,Ze,ce);gt.pixelStorei(D.UNPACK_ROW_LENGTH,rn),gt.pixelStorei(D.UNPACK_IMAGE_HEIGHT,ie),gt.pixelStorei(D.UNPACK_SKIP_PIXELS,ji),gt.pixelStorei(D.UNPACK_SKIP_ROWS,Ke),gt.pixelStorei(D.UNPACK_SKIP_IMAGES,Ro),mt===0&&P.generateMipmaps===!0&&P.mipmapsAutoUpdate===!0&&D.generateMipmap(At),gt.unbindTexture()},this.initRenderTarget=function(M){Dt.get(M).__webglFramebuffer===void 0&&zt.setupRenderTarget(M)},this.initTexture=function(M){M.isCubeTexture?zt.setTextureCube(M,0):M.isData3DTexture?zt.setTexture3D(M,0):M.isDataArrayTexture||M.isCompressedArrayTexture?zt.setTexture2DArray(M,0):zt.setTexture2D(M,0),gt.unbindTexture()},this.resetState=function(){j=0,H=0,rt=null,gt.reset(),ht.reset()},typeof __THREE_DEVTOOLS__<"u"&&__THREE_DEVTOOLS__.dispatchEvent(new CustomEvent("observe",{detail:this}))}get coordinateSystem(){return On}get outputColorSpace(){return this._outputColorSpace}set outputColorSpace(t){this._outputColorSpace=t;let e=this.getContext();e.drawingBufferColorSpace=Kt._getDrawingBufferColorSpace(t),e.unpackColorSpace=Kt._getUnpackColorSpace()}};function F_(i,t,e,n){let s=pA(i,dA(i.length/3,t),e,n),r=new Uint32Array(t.length),o=0;for(let a=0;a<t.length;a+=3){let l=s[t[a]],c=s[t[a+1]],h=s[t[a+2]];l===c||c===h||h===l||(r[o]=l,r[o+1]=c,r[o+2]=h,o+=3)}return r.slice(0,o)}function dA(i,t){let e=new Int32Array(i);for(let n=0;n<t.length;n+=3)for(let s=0;s<3;s+=1){let r=t[n+s],o=t[n+(s+1)%3];e[r]=e[r]+Math.imul(o+1,2654435761)|0,e[o]=e[o]-Math.imul(r+1,2654435761)|0}return e}function fA(i,t){return(i[4*t]>0?4:0)+(i[4*t+1]>0?2:0)+(i[4*t+2]>0?1:0)}function pA(i,t,e,n){let s=i.length/3,r=new Map,o=new Int32Array(s).fill(-1),a=[];for(let h=0;h<s;h+=1){if(t[h]!==0)continue;let[d,u,f]=[0,1,2].map(g=>Math.floor(i[3*h+g]/n)+2048),m=((d*4096+u)*4096+f)*8+fA(e,h);r.has(m)||(r.set(m,a.length/4),a.push(0,0,0,0));let S=r.get(m);o[h]=S;for(let g=0;g<3;g+=1)a[4*S+g]+=i[3*h+g];a[4*S+3]+=1}let l=new Int32Array(a.length/4).fill(-1),c=new Float64Array(a.length/4).fill(1/0);for(let h=0;h<s;h+=1){let d=o[h];if(d<0)continue;let u=0;for(let f=0;f<3;f+=1)u+=(i[3*h+f]-a[4*d+f]/a[4*d+3])**2;u<c[d]&&(c[d]=u,l[d]=h)}return Uint32Array.from(o,(h,d)=>h<0?d:l[h])}var k_=`
precision highp float;
uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
in vec3 position;
in vec4 shade;
in vec4 colour;
in float gap;
out vec3 vNormal;
out vec3 vColour;
out float vHollow;
out float vGap;

void main() {
  vNormal = mat3(modelViewMatrix) * shade.xyz;
  vHollow = shade.w;
  vColour = colour.rgb;
  vGap = gap;
  gl_Position = projectionMatrix * (modelViewMatrix * vec4(position, 1.0));
}
`,Ed=`
precision highp float;
in vec3 vNormal;
in vec3 vColour;
in float vHollow;
in float vGap;
out vec4 colourOut;

vec3 facing() {
  vec3 n = normalize(vNormal);
  return n.z < 0.0 ? -n : n;
}

// A key light from above on the left, a weak one from the right, and light from all around, which
// reaches less of grooves and fossae.
float brightness(vec3 n) {
  float key = max(dot(n, vec3(-0.42, 0.56, 0.714)), 0.0);
  float fill = max(dot(n, vec3(0.78, -0.05, 0.62)), 0.0);
  float hollow = vHollow > 0.0 ? 1.0 - 0.42 * vHollow : 1.0 - 0.10 * vHollow;
  return (0.40 + 0.57 * key + 0.18 * fill) * hollow;
}
`,Cd=`${Ed}
uniform sampler2D scale;
uniform float strength;
uniform float touching;

void main() {
  vec3 n = facing();
  vec3 base = vColour;
  float light = brightness(n);
  if (strength > 0.0 && vGap < 1.0) {
    float share = vGap * (65535.0 / 65534.0);
    vec4 gapColour = texture(scale, vec2((share * 255.0 + 0.5) / 256.0, 0.5));
    base = mix(base, gapColour.rgb, strength * gapColour.a);
    float edge = max(fwidth(share), 1e-4);
    float touch = 1.0 - smoothstep(touching, touching + edge, share);
    base = mix(base, vec3(0.0, 0.0, 0.02), strength * touch);
    light = mix(light, 0.45 + 0.6 * light, 0.5);
  }
  float shine = pow(max(dot(n, vec3(-0.226, 0.302, 0.926)), 0.0), 60.0);
  colourOut = vec4(base * min(light, 1.12) + vec3(0.10 * shine), 1.0);
}
`,B_=`${Ed}
void main() {
  float rim = 1.0 - facing().z;
  float opacity = 0.10 + 0.75 * rim * rim;
  colourOut = vec4(mix(vColour * 0.75, vec3(0.03, 0.16, 0.34), min(1.0, 1.4 * rim)), opacity);
}
`,Rd=`${Ed}
void main() {
  vec3 n = facing();
  float rim = 1.0 - n.z;
  float opacity = 0.16 + 0.68 * rim * rim;
  vec3 face = vColour * (0.55 + 0.45 * brightness(n)) * 0.88;
  colourOut = vec4(mix(face, vec3(0.20, 0.27, 0.35), min(1.0, 1.1 * rim)), opacity);
}
`;var G_=16777215,V_=["upper","lower"],mc=400,gA=2.5,_A=.9,xA=12e3,So={solid:0,depth:1,ghost:2},yA=/swiftshader|llvmpipe|softpipe|software|basic render/i,he,Id,gc,Pd,H_,W_,_c,or,xc=class{constructor(t,e){vt(this,he);this.holder=t,this.scene=new jr,this.eye=new js(-1,1,1,-1,0,2*mc),this.eye.matrixAutoUpdate=!1,x(this,he,W_).call(this,e),this.meshes={},this.gaps={},this.width=0,this.height=0,this.ratio=0,x(this,he,Id).call(this,!1),this.software=x(this,he,H_).call(this)}smoothOutlines(){x(this,he,gc).call(this);let t=this.renderer;x(this,he,Id).call(this,!0),t.dispose();let{width:e,height:n,ratio:s}=this;this.width=0,this.size(e,n,s)}setCasts(t){x(this,he,Pd).call(this);for(let e of Object.values(this.meshes))this.scene.remove(e);this.meshes={};for(let e of V_){let{teeth:n,around:s,before:r}=t[e],o=n.index.length/3>xA,a=x(this,he,_c).call(this,n,o?_A:null);this.gaps[e]={attribute:a.fine.getAttribute("gap"),order:n.order},x(this,he,or).call(this,`${e} solid`,a,n.closed,"plain",So.solid),x(this,he,or).call(this,`${e} depth`,a,n.closed,"depth",So.depth),x(this,he,or).call(this,`${e} ghost`,a,n.closed,"ghost",So.ghost);let l=x(this,he,_c).call(this,s,gA);x(this,he,or).call(this,`${e} around`,l,s.closed,"plain",So.solid),r&&x(this,he,or).call(this,`${e} before`,x(this,he,_c).call(this,r,null),r.closed,"before",So.ghost)}}setCoarse(t){for(let e of Object.values(this.meshes))e.geometry=t?e.userData.shapes.coarse:e.userData.shapes.fine}setGaps(t,e){let{attribute:n,order:s}=this.gaps[t],r=e.length===s.length;for(let o=0;o<s.length;o+=1)n.array[o]=r?e[s[o]]:nu;n.needsUpdate=!0}gapsOf(t){return this.gaps[t].attribute.array}setDisplay({upper:t,lower:e,around:n,before:s,coloured:r}){let o={upper:t,lower:e};for(let a of V_){let l=o[a],c=h=>this.meshes[`${a} ${h}`];c("solid")&&(c("solid").visible=l==="solid",c("solid").material=c("solid").userData.materials[r?"coloured":"plain"],c("depth").visible=l==="ghosted",c("ghost").visible=l==="ghosted",c("around").visible=n&&l==="solid",c("before")&&(c("before").visible=s&&l!=="away"))}}setLimit(t){for(let{coloured:e}of Object.values(this.materials))e.uniforms.touching.value=.02/t}setMove(t){for(let[e,n]of Object.entries(this.meshes))e.startsWith("lower")&&(n.matrix.set(...t),n.matrixWorldNeedsUpdate=!0)}size(t,e,n){t===this.width&&e===this.height&&n===this.ratio||(this.width=t,this.height=e,this.ratio=n,this.renderer.setPixelRatio(n),this.renderer.setSize(t,e,!1))}get lost(){return this.renderer.getContext().isContextLost()}draw(t){let{right:e,up:n,towards:s,centre:r}=t;this.eye.matrix.set(e[0],n[0],-s[0],r[0]-mc*s[0],e[1],n[1],-s[1],r[1]-mc*s[1],e[2],n[2],-s[2],r[2]-mc*s[2],0,0,0,1),this.eye.matrixWorldNeedsUpdate=!0;let o=t.width/2/t.pxPerMm,a=t.height/2/t.pxPerMm;this.eye.left=-o,this.eye.right=o,this.eye.top=a,this.eye.bottom=-a,this.eye.updateProjectionMatrix(),this.renderer.render(this.scene,this.eye)}async done(){let t=this.renderer.getContext(),e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);for(t.flush();e&&!t.isContextLost()&&t.getSyncParameter(e,t.SYNC_STATUS)!==t.SIGNALED;)await new Promise(n=>{setTimeout(n,1)});t.deleteSync(e)}dispose(){x(this,he,gc).call(this),this.renderer.dispose(),this.canvas.remove()}};he=new WeakSet,Id=function(t){let e=document.createElement("canvas");this.renderer=new dc({canvas:e,antialias:t,alpha:!1,stencil:!1}),this.renderer.setClearColor(G_,1),this.antialias=t,e.className="casts-surfaces",e.setAttribute("aria-hidden","true");let n=this.canvas;this.canvas=e,n?n.replaceWith(e):this.holder.prepend(e),e.addEventListener("webglcontextlost",()=>{x(this,he,gc).call(this),this.onLost?.()}),e.addEventListener("webglcontextrestored",()=>{this.renderer.setClearColor(G_,1),this.onRestored?.()})},gc=function(){x(this,he,Pd).call(this);for(let t of Object.values(this.materials))for(let e of Object.values(t))e.dispose();this.scale.dispose()},Pd=function(){for(let t of Object.values(this.meshes))t.userData.shapes.fine.dispose(),t.userData.shapes.coarse.dispose()},H_=function(){let t=this.renderer.getContext(),e=t.getExtension("WEBGL_debug_renderer_info");return yA.test(t.getParameter(e?e.UNMASKED_RENDERER_WEBGL:t.RENDERER))},W_=function(t){let e=new Js(wp(t),256,1,bn);e.minFilter=Ge,e.magFilter=Ge,e.needsUpdate=!0;let n=(s,r,o)=>new Ks({glslVersion:go,vertexShader:k_,fragmentShader:s,depthFunc:Wi,uniforms:{scale:{value:e},strength:{value:r},touching:{value:.02}},...o});this.scale=e,this.materials={};for(let[s,r]of[["open",Bn],["closed",hi]])this.materials[s]={coloured:n(Cd,1,{side:r}),plain:n(Cd,0,{side:r}),depth:n(Rd,0,{side:r,colorWrite:!1,transparent:!0}),ghost:n(Rd,0,{side:r,transparent:!0,depthWrite:!1}),before:n(B_,0,{side:r,transparent:!0,depthWrite:!1})}},_c=function(t,e){let n=vA(t);if(!this.software||e===null)return{fine:n,coarse:n};let s=new Zn;for(let[o,a]of Object.entries(n.attributes))s.setAttribute(o,a);let r=F_(t.positions,t.index,t.shade,e);return s.setIndex(new qe(r,1)),{fine:n,coarse:s}},or=function(t,e,n,s,r){let o=new kn(e.fine);o.userData.shapes=e,o.userData.materials=this.materials[n?"closed":"open"],o.material=o.userData.materials[s],o.frustumCulled=!1,o.matrixAutoUpdate=!1,o.renderOrder=r,this.meshes[t]=o,this.scene.add(o)};function vA(i){let t=new Zn;t.setAttribute("position",new qe(i.positions,3)),t.setAttribute("shade",new qe(i.shade,4,!0)),t.setAttribute("colour",new qe(i.colours,4,!0));let e=new Uint16Array(i.positions.length/3).fill(nu);return t.setAttribute("gap",new qe(e,1,!0)),t.setIndex(new qe(i.index,1)),t}var MA=180,Ld=5,SA=16,bA=30,wA=2,TA=80,AA=.5,ms=2,bo={margin:10,line:18},EA="The casts cannot be drawn: this browser has no WebGL, or it is switched off. Everything else on this page works. Try another browser, or switch on hardware acceleration.",CA="The graphics card has stopped drawing. The picture comes back by itself.",ve,Nd,yc,Dd,Od,X_,Ud,$_,vc=class{constructor(t,e,n){vt(this,ve);this.holder=t,this.view=n,this.costs=[],this.frames=0;try{this.stage=new xc(t,e)}catch{x(this,ve,yc).call(this,EA);return}this.overlay=new wa(t),x(this,ve,Nd).call(this,this.stage.canvas),this.stage.onLost=()=>x(this,ve,yc).call(this,CA),this.stage.onRestored=()=>{x(this,ve,yc).call(this,""),this.changed()},this.watcher=new ResizeObserver(()=>x(this,ve,Dd).call(this)),this.watcher.observe(t),x(this,ve,Dd).call(this)}timeAgain(){this.costs=[]}get cost(){return[...this.costs].sort((t,e)=>t-e)[this.costs.length>>1]??0}moving(t){this.inMotion=t,this.changed()}changed(){this.stage&&(clearTimeout(this.stillTimer),this.frame||(this.frame=requestAnimationFrame(()=>x(this,ve,Od).call(this,!1))))}picture(t){let{eye:e}=this.view,n=document.createElement("canvas"),s=n.getContext("2d"),r=RA(s,t,e.width-2*bo.margin),o=e.height+(r.length?r.length*bo.line+bo.margin:0);return n.width=e.width*ms,n.height=o*ms,s.fillStyle="#ffffff",s.fillRect(0,0,n.width,n.height),this.stage&&this.view.ready()&&(x(this,ve,Ud).call(this,ms,!1),s.drawImage(this.stage.canvas,0,0,n.width,e.height*ms),s.scale(ms,ms),qg(s,e.width,e.height,this.view.model(!0),ms),r.forEach(({text:a,bold:l},c)=>Ee(s,a,bo.margin,e.height+bo.line*(c+.7),{bold:l})),this.changed()),new Promise(a=>{n.toBlob(a,"image/png")})}dispose(){cancelAnimationFrame(this.frame),clearTimeout(this.stillTimer),this.watcher?.disconnect(),this.stage?.dispose();for(let t of this.overlay?.canvases??[])t.remove();this.words?.remove(),this.stage=null}};ve=new WeakSet,Nd=function(t){Object.assign(t.style,{position:"absolute",left:"0",top:"0",width:"100%",height:"100%"})},yc=function(t){this.words??(this.words=document.createElement("p")),this.words.className="casts-message",this.words.setAttribute("role","status"),this.words.textContent=t,t?this.holder.append(this.words):this.words.remove()},Dd=function(){let{eye:t}=this.view;t.width=Math.max(1,Math.round(this.holder.clientWidth)),t.height=Math.max(1,Math.round(this.holder.clientHeight)),this.overlay.size(t.width,t.height,Math.max(1,globalThis.devicePixelRatio??1)),this.view.resized(),this.changed()},Od=function(t){if(this.frame=0,!this.view.ready()||this.stage.lost)return;let e=performance.now();x(this,ve,Ud).call(this,x(this,ve,X_).call(this,t),!t),t||x(this,ve,$_).call(this,e),this.overlay.draw(this.view.model(t)),!t&&!this.inMotion&&(this.stillTimer=setTimeout(()=>x(this,ve,Od).call(this,!0),MA)),this.view.drawn({milliseconds:performance.now()-e,still:t})},X_=function(t){return this.stage.software?this.cost>TA?t?1:AA:t?wA:1:Math.min(globalThis.devicePixelRatio??1,2)},Ud=function(t,e){let{eye:n}=this.view;this.stage.setCoarse(e&&this.stage.software),this.stage.size(n.width,n.height,t),this.stage.draw(n)},$_=async function(t){this.frames+=1,!(this.costs.length===Ld&&this.frames%SA!==0||(await this.stage.done(),this.costs.push(performance.now()-t),this.costs.length>Ld&&this.costs.shift(),!(this.costs.length===Ld&&this.cost<=bA)||!this.stage||this.stage.software||this.stage.antialias))&&(this.stage.smoothOutlines(),x(this,ve,Nd).call(this,this.stage.canvas),this.changed())};function RA(i,t,e){return t.flatMap((n,s)=>Cp(i,n,e,{bold:s===0}).map(r=>({text:r,bold:s===0})))}var nn,Mc,q_,Sc,Y_,J_,Fd=class{constructor(t,e,n){vt(this,nn);this.positions=t,this.index=e,this.order=n;let s=4*Math.ceil(n.length/6)+4;this.boxes=new Float32Array(6*s),this.firsts=new Int32Array(s),this.counts=new Int32Array(s),this.seconds=new Int32Array(s),this.made=0,x(this,nn,Mc).call(this,0,n.length)}cast(t,e,n,s){let r=e.map(a=>1/(Math.abs(a)<1e-12?1e-12:a)),o=[0];for(;o.length>0;){let a=o.pop();if(!x(this,nn,J_).call(this,a,t,r,n,s.t))continue;let l=this.counts[a];if(l===0){o.push(this.seconds[a],a+1);continue}for(let c=this.firsts[a];c<this.firsts[a]+l;c+=1)IA(this.positions,this.index,this.order[c],t,e,n,s)}}};nn=new WeakSet,Mc=function(t,e){let n=this.made;this.made+=1;let s=x(this,nn,Y_).call(this,t,e);if(this.boxes.set(s,6*n),e-t<=6){this.firsts[n]=t,this.counts[n]=e-t;return}let r=0;for(let a=1;a<3;a+=1)s[a+3]-s[a]>s[r+3]-s[r]&&(r=a);let o=t+e>>1;x(this,nn,q_).call(this,t,e-1,o,r),x(this,nn,Mc).call(this,t,o),this.seconds[n]=this.made,x(this,nn,Mc).call(this,o,e)},q_=function(t,e,n,s){let{order:r}=this,o=t,a=e;for(;o<a;){let l=x(this,nn,Sc).call(this,r[o+a>>1],s),c=o,h=a;for(;c<=h;){for(;x(this,nn,Sc).call(this,r[c],s)<l;)c+=1;for(;x(this,nn,Sc).call(this,r[h],s)>l;)h-=1;c<=h&&([r[c],r[h]]=[r[h],r[c]],c+=1,h-=1)}if(n<=h)a=h;else if(n>=c)o=c;else return}},Sc=function(t,e){let{positions:n,index:s}=this,r=3*t;return n[3*s[r]+e]+n[3*s[r+1]+e]+n[3*s[r+2]+e]},Y_=function(t,e){let n=[1/0,1/0,1/0,-1/0,-1/0,-1/0];for(let s=t;s<e;s+=1)for(let r=0;r<3;r+=1){let o=3*this.index[3*this.order[s]+r];for(let a=0;a<3;a+=1){let l=this.positions[o+a];l<n[a]&&(n[a]=l),l>n[a+3]&&(n[a+3]=l)}}return n},J_=function(t,e,n,s,r){let o=s,a=r;for(let l=0;l<3;l+=1){let c=(this.boxes[6*t+l]-e[l])*n[l],h=(this.boxes[6*t+l+3]-e[l])*n[l];o=Math.max(o,Math.min(c,h)),a=Math.min(a,Math.max(c,h))}return o<=a};function IA(i,t,e,n,s,r,o){let a=3*t[3*e],l=3*t[3*e+1],c=3*t[3*e+2],h=i[l]-i[a],d=i[l+1]-i[a+1],u=i[l+2]-i[a+2],f=i[c]-i[a],m=i[c+1]-i[a+1],S=i[c+2]-i[a+2],g=s[1]*S-s[2]*m,_=s[2]*f-s[0]*S,b=s[0]*m-s[1]*f,I=h*g+d*_+u*b;if(Math.abs(I)<1e-14)return;let A=n[0]-i[a],C=n[1]-i[a+1],E=n[2]-i[a+2],y=(A*g+C*_+E*b)/I;if(y<-1e-7||y>1+1e-7)return;let T=C*u-E*d,B=E*h-A*u,N=A*d-C*h,O=(s[0]*T+s[1]*B+s[2]*N)/I;if(O<-1e-7||y+O>1+1e-7)return;let z=(f*T+m*B+S*N)/I;z<r||z>=o.t||(o.t=z,o.triangle=e,o.u=y,o.v=O)}var bc=class{constructor(t){this.surface=t,this.crowns=[...PA(t)].map(([e,n])=>({tooth:e,triangles:Uint32Array.from(n),tree:null,...LA(t,n)}))}cast(t,e,n=-1/0,s=-1){let r={t:1/0,triangle:-1,u:0,v:0},{positions:o,index:a}=this.surface;for(let l of this.crowns){if(l.tooth===s)continue;let[c,h,d]=[0,1,2].map(f=>l.middle[f]-t[f]),u=c*e[0]+h*e[1]+d*e[2];c*c+h*h+d*d-u*u>l.radius*l.radius||u+l.radius<n||u-l.radius>r.t||(l.tree??(l.tree=new Fd(o,a,l.triangles)),l.tree.cast(t,e,n,r))}return r.triangle<0?null:r}};function PA({index:i,tooth:t}){let e=new Map;for(let n=0;n<i.length/3;n+=1){let s=t[i[3*n]];e.has(s)||e.set(s,[]),e.get(s).push(n)}return e}function LA({positions:i,index:t},e){let n=[1/0,1/0,1/0],s=[-1/0,-1/0,-1/0],r=l=>{for(let c of e)for(let h=0;h<3;h+=1)l(3*t[3*c+h])};r(l=>{for(let c=0;c<3;c+=1)n[c]=Math.min(n[c],i[l+c]),s[c]=Math.max(s[c],i[l+c])});let o=[0,1,2].map(l=>.5*(n[l]+s[l])),a=0;return r(l=>{let[c,h,d]=[0,1,2].map(u=>i[l+u]-o[u]);a=Math.max(a,c*c+h*h+d*d)}),{low:n,high:s,middle:o,radius:Math.sqrt(a)}}function NA(i,t,e,n){let s=[0,1,2].map(l=>i[t[3*e.triangle+l]]);if(s.includes(65535))return null;let[r,o,a]=s;return(r+e.u*(o-r)+e.v*(a-r))*n/65534}function Z_({arch:i,surface:t,hit:e},n,s,r){let o=kd(t.index,e),a=t.tooth[o];return{arch:i,tooth:a,name:n.names[a]??"",place:n.places[t.place[o]]??"",gap_mm:s&&NA(s,t.index,e,r),farther_than_mm:r}}function kd(i,t){let e=[1-t.u-t.v,t.u,t.v];return i[3*t.triangle+e.indexOf(Math.max(...e))]}function K_(i,t){let e=new Map,n=new AbortController,s=(c,h)=>i.addEventListener(c,h,{signal:n.signal,passive:!1}),r=c=>{let h=i.getBoundingClientRect();return[c.clientX-h.left,c.clientY-h.top]},o=null;s("pointerdown",c=>{c.button>2||(o=e.size===0&&c.button===0&&!c.shiftKey?{at:r(c),id:c.pointerId}:null,e.set(c.pointerId,r(c)),i.setPointerCapture(c.pointerId),i.focus({preventScroll:!0}),t.leave())}),s("pointermove",c=>{let h=r(c),d=e.get(c.pointerId);if(!d){c.pointerType!=="touch"&&t.hover(...h);return}let[u,f]=[h[0]-d[0],h[1]-d[1]];e.size===1?c.buttons&6||c.shiftKey?t.pan(u,f):t.turn(u,f):l(c.pointerId,d,h),e.set(c.pointerId,h)});let a=c=>e.delete(c.pointerId);s("pointerup",c=>{a(c);let[h,d]=r(c),u=o?.id===c.pointerId&&Math.hypot(h-o.at[0],d-o.at[1])<4;o=null,u&&t.click(h,d)}),s("pointercancel",a),s("pointerleave",()=>t.leave()),s("contextmenu",c=>c.preventDefault()),s("wheel",c=>{c.preventDefault();let h=c.deltaMode===1?16:1;t.zoom(Math.exp(-.0016*h*c.deltaY),...r(c))});function l(c,h,d){let u=[...e].find(([m])=>m!==c)[1];t.pan((d[0]-h[0])/2,(d[1]-h[1])/2);let f=m=>Math.hypot(m[0]-u[0],m[1]-u[1]);f(h)>1&&t.zoom(f(d)/f(h),(d[0]+u[0])/2,(d[1]+u[1])/2)}return()=>n.abort()}var j_=400,DA=.5,Bd=new WeakMap;function OA(i){return Bd.has(i)||Bd.set(i,new bc(i)),Bd.get(i)}var sn,zd,wc,Gd,Tc,Ac=class{constructor(t){vt(this,sn);this.surfaces=[];for(let e of["upper","lower"])for(let n of["teeth","around"])this.surfaces.push({arch:e,kind:n,surface:t[e][n],picker:OA(t[e][n])});this.move=br,this.display={upper:"solid",lower:"solid",around:!0}}hides(t,e){return x(this,sn,Gd).call(this,t,e,["solid"],-1)}isBehindOthers(t,e,n,s){let r=this.display[n]==="ghosted"?["solid","ghosted"]:["solid"];return x(this,sn,Gd).call(this,t,e,r,s)}crown(t,e){let{picker:n}=this.surfaces.find(s=>s.arch===t&&s.kind==="teeth");return n.crowns.find(s=>s.tooth===e)}meet(t,e){let n=Xe(t,e,-j_),s=x(this,sn,Tc).call(this,"solid",n,e)??x(this,sn,Tc).call(this,"ghosted",n,e);return s&&{...s,point:Xe(...x(this,sn,wc).call(this,s,n,e),s.hit.t)}}pick(t,e){let n=Xe(t,e,-j_);for(let s of["solid","ghosted"]){let r=x(this,sn,Tc).call(this,s,n,e);if(r)return r.kind==="teeth"?r:null}return null}};sn=new WeakSet,zd=function({arch:t,kind:e},n){return this.display[t]===n&&(e==="teeth"||this.display.around&&n==="solid")},wc=function({arch:t},e,n){return t==="upper"?[e,n]:[Di(this.move,e),Sp(this.move,n)]},Gd=function(t,e,n,s){let r=[-e[0],-e[1],-e[2]];return this.surfaces.some(o=>{if(!n.some(c=>x(this,sn,zd).call(this,o,c)))return!1;let[a,l]=x(this,sn,wc).call(this,o,t,r);return o.picker.cast(a,l,DA,s)!==null})},Tc=function(t,e,n){let s=null;for(let r of this.surfaces){if(!x(this,sn,zd).call(this,r,t))continue;let o=r.picker.cast(...x(this,sn,wc).call(this,r,e,n));o&&(!s||o.t<s.hit.t)&&(s={...r,hit:o})}return s};var Vd=["upper","lower"],UA={beside:12,above:4},FA={"upper occlusal":"upper","lower occlusal":"lower",mouth:"lower"},qt,Hd,tx,Ec,wo,Cc,Wd,gs,Rc,Xd,ar=class{constructor(t,{colours:e,styles:n,gapScale:s,onHover:r,onClick:o,onFrame:a,onLook:l}){vt(this,qt);this.holder=t,this.roles=e,this.styles=n??{},this.gapScale=s,Object.assign(this,{onHover:r,onClick:o,onLook:l}),Object.assign(this,{pins:[],forces:null}),this.eye=new _a,this.fitted=!0,this.sized=!1,this.display={upper:"solid",lower:"solid",map:"pose",numbers:!0,around:!0},this.displays=0,this.move=br,this.moves=0,x(this,qt,Hd).call(this),t.tabIndex=0,t.setAttribute("role","application"),t.style.position="relative",t.style.touchAction="none",x(this,qt,Rc).call(this),this.painter=new vc(t,this.gapScale,{eye:this.eye,ready:()=>!!this.teeth,model:c=>Op(this,c),drawn:c=>a?.({pose:this.pose?.number??null,...c}),resized:()=>this.sized?this.eye.showAsMuch():x(this,qt,gs).call(this)}),this.stage=this.painter.stage,this.stage&&x(this,qt,tx).call(this)}setTeeth(t,e){if(this.stage){x(this,qt,Hd).call(this),this.teeth=t,this.casts=zg(t,e,this.roles,this.casts??null),this.boxes={};for(let n of Vd){let{teeth:s,around:r}=this.casts[n];this.boxes[n]=Vg(s.positions.length>0?s:r)}this.sight=new Ac(this.casts),this.stage.setCasts(this.casts),this.painter.timeAgain(),x(this,qt,Ec).call(this,br),x(this,qt,wo).call(this),this.fitted&&x(this,qt,gs).call(this),this.painter.changed()}}setPose(t,e){this.teeth&&(this.pose=t,this.posed=Float32Array.from(t.move),this.gaps.pose=Q_(t,e),x(this,qt,Ec).call(this,this.posed),x(this,qt,wo).call(this),this.fitted&&!x(this,qt,Wd).call(this).every(n=>this.eye.holds(n))&&x(this,qt,gs).call(this),x(this,qt,Rc).call(this),this.painter.changed())}setMove(t){this.teeth&&(x(this,qt,Ec).call(this,t),this.painter.changed())}moving(t){this.painter.moving(t)}setReach(t,e){this.teeth&&(this.gaps.excursion=t&&Q_(t,e),x(this,qt,wo).call(this),this.painter.changed())}setTrail(t){this.trail=t??[],this.trailHidden=[],this.painter.changed()}setDisplay(t){this.display={...this.display,...t},this.displays+=1,this.teeth&&(x(this,qt,wo).call(this),this.fitted&&x(this,qt,gs).call(this),this.painter.changed())}mapOf(){let{map:t}=this.display;return this.gaps[t]?t:"none"}look(t){this.eye.look(t),this.fitted=!0,this.sized=!1,x(this,qt,gs).call(this),x(this,qt,Cc).call(this)}camera(){return{...this.eye.kept(),fitted:this.fitted,sized:this.sized}}setCamera(t){this.eye.restore(t)&&(this.fitted=!!t.fitted,this.sized=!!t.sized,this.fitted&&x(this,qt,gs).call(this),x(this,qt,Cc).call(this))}ring(t){this.ringed=t,this.painter.changed()}turn(t,e){this.eye.turn(t,e),this.fitted=!1,x(this,qt,Cc).call(this)}pan(t,e){this.eye.pan(t,e),this.fitted=!1,this.sized=!0,this.painter.changed()}zoom(t,e,n){this.eye.zoom(t,e,n),this.fitted=!1,this.sized=!0,this.painter.changed()}placeNow(t){return this.display.upper!=="away"||!this.posed||this.move===this.posed?t:ii(this.move,Di(this.posed,t))}hitAt(t,e){let n=this.sight?.pick(this.eye.unproject(t,e),this.eye.towards);if(!n)return null;let s=this.mapOf(),r=s==="none"?null:this.stage.gapsOf(n.arch);return{...Z_(n,this.teeth,r,this.limitMm),map:s,stale:s==="pose"&&this.move!==this.posed,x:t,y:e}}placeAt(t,e){let n=this.sight?.meet(this.eye.unproject(t,e),this.eye.towards);return n&&{arch:n.arch,point:n.point,tooth:n.surface.tooth[kd(n.surface.index,n.hit)]}}lay(t){Object.assign(this,t),this.painter.changed()}picture(t=[]){return this.painter.picture(t)}dispose(){cancelAnimationFrame(this.hovering),this.unfollow?.(),this.painter.dispose(),this.stage=null,this.teeth=null,this.sight=null}};qt=new WeakSet,Hd=function(){this.pose=null,this.posed=null,this.gaps={pose:null,excursion:null},this.gapsShown=null,this.limitMm=1,this.trail=[],this.trailHidden=[],this.ringed=this.forces=null},tx=function(){let t=e=>(...n)=>{e(...n),this.onLook?.(this.camera())};this.unfollow=K_(this.holder,{turn:t((e,n)=>this.turn(e,n)),pan:t((e,n)=>this.pan(e,n)),zoom:t((e,n,s)=>this.zoom(e,n,s)),hover:(e,n)=>x(this,qt,Xd).call(this,[e,n]),leave:()=>x(this,qt,Xd).call(this,null),click:(e,n)=>this.onClick?.(this.placeAt(e,n))})},Ec=function(t){this.move=t,this.moves+=1,this.stage.setMove(t),this.sight.move=t},wo=function(){let t=this.mapOf(),e=this.gaps[t];if(e&&e!==this.gapsShown){this.gapsShown=e,this.limitMm=e.limitMm,this.stage.setLimit(e.limitMm);for(let n of Vd)this.stage.setGaps(n,e[n])}this.sight.display=this.display,this.stage.setDisplay({...this.display,coloured:!!e})},Cc=function(){x(this,qt,Rc).call(this),this.painter.changed()},Wd=function(){if(!this.boxes)return[];let t=this.eye.turnedAway?null:FA[this.eye.name];return Vd.filter(n=>t?n===t:this.display[n]!=="away").flatMap(n=>{let s=Hg(this.boxes[n]);return n==="lower"?s.map(r=>ii(this.move,r)):s})},gs=function(){let t=x(this,qt,Wd).call(this);if(t.length===0)return;let{top:e,bottom:n}=Ar(this.eye.height,this.display.map!=="none"),{beside:s,above:r}=UA;this.eye.fit(t,{top:e+r,right:s,bottom:n+r,left:s})},Rc=function(){let t=this.pose?.words?` ${this.pose.words}`:"";ke(this.holder,{"aria-label":`Casts, view: ${this.eye.title}.${t}`})},Xd=function(t){this.onHover&&(this.hoverAt=t,this.hovering||(this.hovering=requestAnimationFrame(()=>{this.hovering=0,this.onHover(this.hoverAt&&this.hitAt(...this.hoverAt))})))};var Q_=({map_limit_mm:i},{gap_upper:t,gap_lower:e})=>({upper:t,lower:e,limitMm:i});var kA={ArrowLeft:[-1,0],ArrowRight:[1,0],ArrowUp:[0,-1],ArrowDown:[0,1]};function Ic(i,t){if(t.ctrlKey||t.metaKey||t.altKey)return!1;let e=kA[t.key];if(e){let[n,s]=e.map(r=>r*24);t.shiftKey?i.pan(n,s):i.turn(n,s)}else if(t.key==="+"||t.key==="=")i.zoom(1.15);else if(t.key==="-")i.zoom(1/1.15);else return!1;return t.preventDefault(),!0}var ex=[["solid","solid"],["ghosted","ghosted"],["away","away"]],BA=[["front","Front"],["right","Right"],["left","Left"],["upper occlusal","Upper occlusal surface"],["lower occlusal","Lower occlusal surface"],["mouth","Into the mouth"],["behind","Behind"]],Pi,Pc,$d,Lc=class{constructor(t){vt(this,Pi);this.onPick=t,this.display={upper:"solid",lower:"solid",look:"lower occlusal"},this.pins=[],this.upper=ni("pick-upper","Upper",ex,e=>x(this,Pi,Pc).call(this,{upper:e})),this.lower=ni("pick-lower","Lower",ex,e=>x(this,Pi,Pc).call(this,{lower:e})),this.looks=p("select",{id:"pick-look",onchange:()=>this.look(this.looks.value)},BA.map(([e,n])=>p("option",{value:e,text:n}))),this.holder=p("div",{class:"holder",id:"pick-view","aria-describedby":"keys-of-view"}),this.caption=p("p",{class:"pick-caption",id:"pick-caption"}),this.bar=p("div",{class:"pick-bar",role:"group","aria-label":"How the casts are shown"},p("div",{class:"chosen"},p("label",{for:"pick-look",text:"View"}),this.looks),this.upper.element,this.lower.element,p("button",{type:"button",class:"small",text:"Fit",onclick:()=>this.look(this.looks.value)})),this.element=p("div",{class:"pick-centre"},this.bar,p("div",{class:"pick-pane"},this.holder,this.caption))}make(t){this.view||(this.view=new ar(this.holder,{colours:t.roles,styles:t.styles,gapScale:t.gap_scale,onClick:e=>this.onPick(e),onFrame:()=>{let{dataset:e}=document.documentElement;e.pickFrames=String(Number(e.pickFrames??0)+1)}}),this.view.setDisplay({map:"none",numbers:!1}),this.holder.addEventListener("keydown",e=>Ic(this.view,e)))}casts(t,e){this.view.setTeeth(t,e),this.look(this.display.look)}look(t){x(this,Pi,Pc).call(this,t===this.display.look?{look:t,...Dr({...this.display,look:""},t)}:Dr(this.display,t)),this.view?.look(t)}update(t,e){nt(this.caption,{textContent:t}),this.pins=e,x(this,Pi,$d).call(this)}};Pi=new WeakSet,Pc=function(t){this.display={...this.display,...t};let{upper:e,lower:n,look:s}=this.display;this.view?.setDisplay({upper:e,lower:n}),this.upper.update(e),this.lower.update(n),x(this,Pi,$d).call(this),nt(this.looks,{value:s})},$d=function(){this.view?.lay({pins:this.pins.filter(({arch:t})=>this.display[t]!=="away")})};var zA="Seeds were changed: tell the teeth again to see by how much.",lt,nx,qd,Yd,pi,Jd,Nc,ix,sx,rx,Dc,ox,Oc,ax,lx,Zd,cx,hx,ux,dx,fx,px,mx,gx,_x,xx,Ye,Uc=class{constructor(t){vt(this,lt);this.desk=t,this.picking=!1,this.fault="",this.snapping=!1,this.load=new ua({read:e=>x(this,lt,Jd).call(this,"files",e),stop:()=>x(this,lt,sx).call(this),forget:e=>x(this,lt,pi).call(this,"forget_file",{slot:e})}),this.view=new Lc(e=>x(this,lt,lx).call(this,e)),this.panel=new pa({target:e=>x(this,lt,ox).call(this,e),remove:e=>x(this,lt,Oc).call(this,yg(this.points,e)),type:(e,n)=>x(this,lt,ax).call(this,e,n),use:()=>x(this,lt,dx).call(this),tell:()=>x(this,lt,mx).call(this),propose:()=>x(this,lt,fx).call(this),save:e=>x(this,lt,xx).call(this,e),files:()=>this.open(),close:()=>x(this,lt,Dc).call(this,!1)}),It("picking").append(this.panel.element,this.view.element)}get points(){return this.history?.present.points??[]}open(){x(this,lt,Yd).call(this,()=>this.load.open(this.place,x(this,lt,nx).call(this)))}pickOn(t){x(this,lt,Yd).call(this,()=>x(this,lt,Jd).call(this,t,"mm"))}resume(t){this.place&&t.askCasts("place",{key:this.place.key},e=>x(this,lt,qd).call(this,e))}undo(){this.history?.undo()&&x(this,lt,Ye).call(this)}redo(){this.history?.redo()&&x(this,lt,Ye).call(this)}look(t){this.view.look(t)}};lt=new WeakSet,nx=function(){return new URLSearchParams(location.search).get("token")??""},qd=function(t){t.kind==="place"&&(this.place=t)},Yd=function(t){if(this.place){t();return}x(this,lt,pi).call(this,"place",{key:null},e=>{x(this,lt,qd).call(this,e),this.place&&t()})},pi=function(t,e,n=()=>{}){let s=this.desk.studies.a?.askCasts(t,e,n)??!1;return s||this.desk.commands.tell("The connection is lost; try again when it is back.","fault"),s},Jd=function(t,e){x(this,lt,pi).call(this,"read_casts",{of:t,units:e},(s,r)=>x(this,lt,ix).call(this,t,s,r))&&x(this,lt,Nc).call(this,t,"Reading the casts")},Nc=function(t,e){t==="files"?this.load.work(e):this.desk.notices.tell("casts","info",e)},ix=function(t,e,n){if(e.kind==="progress"){x(this,lt,Nc).call(this,t,e.words);return}x(this,lt,Nc).call(this,t,""),e.kind==="casts"?(t==="files"&&this.load.wereRead(),x(this,lt,rx).call(this,e,n)):e.kind==="fault"&&(t==="files"?this.load.tell(e.text,e.keys?.[0]??null):this.desk.notices.tell("casts","fault",e.text))},sx=function(){x(this,lt,pi).call(this,"stop_casts",{}),this.load.work(""),this.load.tell("Stopped.")},rx=function(t,e){this.casts=t;let n=t.given,s=n.some(({tooth:r})=>r===null)||t.transform?[]:t.proposed.map(r=>({...r,proposed:!0}));this.history=new Cs({points:[...s,...n]}),this.toldBy=da(n),this.proposal="",this.busy="",this.target={point:this.place.ways[0].points[0],tooth:null},this.fault="",this.load.close(),this.panel.make(this.place),x(this,lt,Dc).call(this,!0),this.view.make(this.desk.welcome),this.view.casts(t,e),x(this,lt,Ye).call(this),It("picking-title").focus()},Dc=function(t){this.picking=t,document.documentElement.classList.toggle("picking",t),st(It("picking"),t),st(It("main"),!t),t||It("own-casts").focus(),this.desk.playing.stop(),this.desk.drawing.soon()},ox=function(t){this.target=t,this.fault="",x(this,lt,Ye).call(this)},Oc=function(t){this.history.put({points:t}),this.fault="",this.target.index>=t.length&&delete this.target.index,x(this,lt,Ye).call(this)},ax=function(t,e){let n=t.point===this.target.point?this.target.index??null:null;x(this,lt,Oc).call(this,qh(this.points,{...t,place:e},this.place,n))},lx=function(t){if(!t)return;let{point:e,tooth:n,index:s=null}=this.target;if(this.fault=Sg(this.target,t.arch,this.place),this.fault){x(this,lt,Ye).call(this);return}let r=x(this,lt,hx).call(this,t.point),o={point:e,tooth:n,place:r,arch:t.arch,unsnapped:!0};x(this,lt,Oc).call(this,qh(this.points,o,this.place,s)),this.target=bg(this.points,this.place,{point:e,tooth:n}),x(this,lt,Ye).call(this),x(this,lt,Zd).call(this)},Zd=function(){if(this.snapping)return;let t=this.points.filter(({unsnapped:e})=>e);t.length!==0&&(this.snapping=x(this,lt,pi).call(this,"snap",{places:t.map(({arch:e,place:n})=>[e,n])},e=>{this.snapping=!1,e.kind==="snapped"?x(this,lt,cx).call(this,t,e.places):(this.fault=e.text??"",x(this,lt,Ye).call(this))}))},cx=function(t,e){let n=new Map(t.map((r,o)=>[r,e[o]])),s=r=>{let o=n.get(r);if(!o)return r;let{point:a,tooth:l}=r,c=o.far?`moved by ${o.moved_mm.toFixed(1)} mm onto the whole surface`:"";return{point:a,tooth:l,place:o.place,...c?{note:c}:{}}};for(let r of[this.history.past,this.history.future])r.forEach((o,a)=>{r[a]={points:o.points.map(s)}});this.history.amend({points:this.points.map(s)}),x(this,lt,Ye).call(this),x(this,lt,Zd).call(this)},hx=function(t){return ii(this.casts.scan_from_view,t)},ux=function(t){return Di(this.casts.scan_from_view,t)},dx=function(){let t=x(this,lt,pi).call(this,"use_points",{points:Fr(Jh(this.points))},e=>{e.kind!=="progress"&&(this.busy="",this.fault=e.kind==="fault"?e.text:"",e.kind==="own_case"&&x(this,lt,_x).call(this,e.case),x(this,lt,Ye).call(this))});this.busy=t?"use":"",x(this,lt,Ye).call(this)},fx=function(){let t=x(this,lt,pi).call(this,"propose_seeds",{},e=>{e.kind!=="progress"&&(this.busy="",this.fault=e.kind==="fault"?e.text:"",e.kind==="seeds"&&x(this,lt,px).call(this,e),x(this,lt,Ye).call(this))});this.busy=t?"propose":"",x(this,lt,Ye).call(this)},px=function({points:t,words:e}){let n=o=>this.points.some(a=>a.point==="tooth_seed"&&a.tooth===o&&!a.proposed),s=this.points.filter(({point:o,proposed:a})=>o!=="tooth_seed"||!a),r=t.filter(({tooth:o})=>!n(o)).map(o=>({...o,proposed:!0,note:"proposed: check place and number"}));this.history.put({points:[...s,...r]}),this.proposal=`Proposed, not taken yet. ${e.join(" ")} Then press “Tell the teeth by seeds”.`},mx=function(){let t=x(this,lt,pi).call(this,"tell_teeth",{points:Fr(this.points)},(e,n)=>{e.kind!=="progress"&&(this.busy="",this.fault=e.kind==="fault"?e.text:"",e.kind==="casts"&&x(this,lt,gx).call(this,e,n),x(this,lt,Ye).call(this))});this.busy=t?"tell":"",x(this,lt,Ye).call(this)},gx=function(t,e){this.casts=t,this.history.amend({points:this.points.map(vg)}),this.toldBy=da(this.points),this.proposal="";let n=t.proposed.filter(({point:r})=>!this.points.some(o=>o.point===r)),s=t.transform||this.place.ways.slice(1).some(r=>this.points.some(({point:o})=>r.points.includes(o)));n.length>0&&!s&&this.history.put({points:[...this.points,...n.map(r=>({...r,proposed:!0}))]}),this.view.casts(t,e)},_x=function(t){x(this,lt,Dc).call(this,!1),this.desk.takeOwnCase(t)},xx=function(t){x(this,lt,pi).call(this,"casts_file",{what:t,points:Fr(Jh(this.points))},({kind:e,name:n,address:s,text:r})=>{this.fault=e==="fault"?r:"",e==="file"&&pr(s,n),x(this,lt,Ye).call(this)})},Ye=function(){if(!this.casts)return;let{points:t,target:e,casts:n,fault:s,busy:r=""}=this,o=da(t),a=n.teeth_told!==""&&o!==this.toldBy,l=Mg(t,this.place,n);this.panel.update({points:t,target:e,missing:l,casts:n,fault:s,busy:r,seeded:o!=="[]",proposal:this.proposal||(a?zA:"")});let c=d=>this.place.points.find(({point:u})=>u===d),h=e.tooth===null?"":`, ${e.tooth}`;this.view.update(`${c(e.point).title}${h}: click ${c(e.point).where}`,t.map((d,u)=>({place:x(this,lt,ux).call(this,d.place),colour:c(d.point).colour,shape:c(d.point).shape,arch:d.tooth===null?c(d.point).arch:this.place.arch_of[d.tooth],text:d.tooth===null?c(d.point).title:`${d.tooth}`,chosen:d.point===e.point&&d.tooth===e.tooth&&(e.index===void 0||e.index===u)}))),this.desk.drawing.soon()};var kc,yx,Fc=class{constructor(t,e){vt(this,kc);this.which=t,this.calls=e,this.holder=p("div",{class:"holder",id:`view-${t}`,"aria-describedby":"keys-of-view"}),this.badge=p("p",{class:"badge",text:t.toUpperCase()}),this.hover=p("p",{class:"hover",id:`hover-${t}`}),this.work=p("div",{class:"work",id:`work-${t}`}),this.empty=p("p",{class:"empty",id:`empty-${t}`}),this.element=p("div",{class:"pane",id:`pane-${t}`},this.holder,this.badge,this.work,this.empty,this.hover);for(let n of[this.badge,this.hover,this.work,this.empty])st(n,!1)}make(t){this.view||(this.view=new ar(this.holder,{colours:t.roles,styles:t.styles,gapScale:t.gap_scale,onHover:e=>x(this,kc,yx).call(this,e),onFrame:e=>this.calls.onFrame(this.which,e),onLook:()=>this.calls.onLook(this.which),onClick:e=>this.calls.onTooth(this.which,e?.tooth??0)}),this.holder.addEventListener("keydown",e=>{Ic(this.view,e)&&this.calls.onLook(this.which)}))}working(t,e){st(this.work,t!==""),this.work.classList.toggle("skeleton",e),t!==this.workWords&&this.work.replaceChildren(...e?[HA()]:[],p("p",{text:t})),this.workWords=t}trail(t,e,n,s){if(!this.view)return;let r=t.fresh?t.excursion(e,n):null,o=r?`${t.results.header.number} ${t.results.header.kind} ${e} ${n}`:"";o!==this.trailKey&&(this.trailKey=o,this.view.setTrail(r?GA(t,r,s):[]))}forces(t,e){if(!this.view?.teeth)return;let n=e.display.forces?Zo(t,e):null;n?.key!==this.view.forces?.key&&this.view.lay({forces:n})}forgetTrail(){this.trailKey=null}};kc=new WeakSet,yx=function(t){if(st(this.hover,t!==null),!t)return;this.hover.textContent=VA(t);let{clientWidth:e,clientHeight:n}=this.holder,{offsetWidth:s,offsetHeight:r}=this.hover,o=Math.max(4,Math.min(t.x+14,e-s-4)),a=t.y+18+r>n?Math.max(4,t.y-r-12):t.y+18;this.hover.style.transform=`translate(${Math.round(o)}px, ${Math.round(a)}px)`};function GA(i,t,e){let{contacts:n}=t,s=i.buffer(n.place),r=i.buffer(t.moves);return[!0,!1].map(o=>{let a=n.side.flatMap((h,d)=>h!=="nonworking"===o?[d]:[]),l=new Float32Array(3*a.length);a.forEach((h,d)=>l.set(s.subarray(3*h,3*h+3),3*d));let c=a.map(h=>n.pose[h]);return{places:l,lowerPlaces:bh(l,c,r),colour:e?.colour??"#1c1f24",shape:e?.shape??"o",filled:o}})}function VA(i){let t=[i.name||(i.tooth?`tooth ${i.tooth}`:""),i.place].filter(Boolean).join(", ");if(i.map==="none")return t;let e=i.gap_mm===null||i.gap_mm===void 0?`farther than ${We(String(i.farther_than_mm),"mm")}`:We(i.gap_mm.toFixed(2),"mm"),n=i.map==="excursion"?"nearest in the excursion":"gap",s=i.stale?" (at the last pose computed)":"";return`${t}: ${n} ${e}${s}`}function HA(){let i=()=>p("div",{class:"skeleton-row"},Array.from({length:14},()=>p("span",{})));return p("div",{class:"skeleton-casts","aria-hidden":"true"},i(),i())}function vx(i,t,e){let n=i.length-1,s=i.findIndex(l=>l>=e);s<0&&(s=n);let r=Math.max(s-1,0),o=i[s]-i[r],a=o>0?Math.min(Math.max((e-i[r])/o,0),1):0;return Float32Array.from({length:16},(l,c)=>(1-a)*t[16*r+c]+a*t[16*s+c])}var WA=.3,To,Kd,Bc=class{constructor({step:t,ended:e}){vt(this,To);this.step=t,this.ended=e,this.playing=!1}start(){this.playing||(this.playing=!0,this.before=null,this.frame=requestAnimationFrame(t=>x(this,To,Kd).call(this,t)))}stop(){this.playing&&(this.playing=!1,cancelAnimationFrame(this.frame),this.ended())}};To=new WeakSet,Kd=function(t){if(!this.playing)return;let e=this.before===null?0:Math.min((t-this.before)/1e3,WA);if(this.before=t,this.step(e)===!1){this.stop();return}this.frame=requestAnimationFrame(n=>x(this,To,Kd).call(this,n))};var zn,Mx,lr,Sx,zc=class{constructor(t,e){vt(this,zn);Object.assign(this,{onFrame:t,onTooth:e}),this.all={},this.leader="a",new ResizeObserver(()=>requestAnimationFrame(()=>x(this,zn,lr).call(this))).observe(It("panes"))}of(t){return this.all[t]}open(t){let e=new Fc(t,{onFrame:(n,s)=>this.onFrame({which:n,...s}),onLook:n=>x(this,zn,Mx).call(this,n),onTooth:this.onTooth});this.all[t]=e,It("panes").append(e.element)}close(t){let e=this.all[t];e.view?.dispose(),e.element.remove(),delete this.all[t],Object.assign(this,{leader:"a",followed:null})}make(t,e){this.all[t].make(e)}look(t){for(let e of Object.values(this.all))e.looked=t,e.view?.look(t);x(this,zn,lr).call(this)}teeth(t,e){let n=this.all[t];n.view.setTeeth(e.teeth.header,e.teeth.buffers),n.forgetTrail(),n.reach=void 0,n.hasTeeth=!0,x(this,zn,lr).call(this)}pose(t,e,n){let{view:s}=this.all[t];s.setPose(e.pose.header,e.pose.buffers),s.stage||(document.documentElement.dataset.answered=String(e.pose.header.number)),this.moveAtOnce(e,n)}moveAtOnce(t,e){let n=this.all[t.which],s=t.pose?.header;if(n?.forces(t,e),!n?.hasTeeth||!s||!t.fresh||e.opening_mm>0||s.opened_mm>0)return!1;if(s.movement===e.movement&&s.start===e.start&&Math.abs(s.travel_mm-e.travel_mm)<1e-6)return!0;let o=t.excursion(e.movement,e.start);return o&&n.view.setMove(vx(o.travel_mm,t.buffer(o.moves),e.travel_mm)),o!==null}get software(){return Object.values(this.all).some(({view:t})=>t?.stage?.software)}moving(t){for(let e of Object.values(this.all))e.view?.moving(t)}point(t){for(let e of Object.values(this.all))e.view?.lay({tooth:t})}ring(t,e){for(let n of Object.values(this.all)){let{upper:s,lower:r,place:o}=e??{};n.view?.ring(e&&n.which===t?{upper:s,lower:r,place:o}:null)}}work(t,e){for(let[n,s]of Object.entries(t)){let r=this.all[n],o=!s.teeth,a=s.progress?.words??"";!a&&s.link==="apart"&&o?a=s.words:!a&&o&&(a=s.welcome?"Making the casts":"Connecting to the program on this machine"),s.fault&&o&&(a=s.fault.text),r.element.classList.toggle("old",s.hasOldCasts),s.hasOldCasts&&s.link!=="apart"&&(a=`${a||"Making the casts"}. Grey: the casts before`),r.working(a,o);let l=s.pose?.header,c=a||!l?"":XA(l,s.excursion(l.movement,l.start));st(r.empty,c!==""),nt(r.empty,{textContent:c}),st(r.badge,!!e?.b)}}update(t,e,n){It("panes").classList.toggle("two",e.b!==null);let{upper:s,lower:r,numbers:o,around:a,before:l,look:c}=e.display,h={upper:s,lower:r,numbers:o,around:a,before:l,map:e.map},d=JSON.stringify(h);for(let[u,f]of Object.entries(t)){let m=this.all[u];m.view&&(d!==m.displayed&&m.view.setDisplay(h),m.displayed=d,c!==m.looked&&m.view.look(c),m.looked=c,m.forces(f,e),m.element.classList.toggle("chosen",e.b!==null&&e.chosen===u),e.map==="excursion"?x(this,zn,Sx).call(this,m,f,e,n):m.trail(f,"","",null))}x(this,zn,lr).call(this)}};zn=new WeakSet,Mx=function(t){this.leader=t,x(this,zn,lr).call(this)},lr=function(){let{a:t,b:e}=this.all;if(!t?.hasTeeth||!e?.hasTeeth)return;let[n,s]=this.leader==="b"?[e,t]:[t,e],r=n.view.camera(),o=JSON.stringify([n.which,n.holder.clientWidth,r]);o!==this.followed&&s.view.setCamera({...r,fitted:!1}),this.followed=o},Sx=function(t,e,n,s){let{movement:r,start:o}=n,{reach:a}=e,c=a&&e.keys.get(a.header.number)===e.wanted&&a.header.movement===r&&a.header.start===o?a:null;c!==t.reach&&t.view.setReach(c?.header??null,c?.buffers),t.reach=c,t.trail(e,r,o,s.styles[r])};function XA(i,t){let e=i.opened_mm>0?"Opened: no contact":"No contact in this pose",n=t?.edge_to_edge_mm??null,s=n!==null&&i.travel_mm>n+1e-6;return[i.contacts.length===0?e:"",s?"Beyond edge-to-edge: crossover, not judged":""].filter(Boolean).join(" · ")}var cr,bx,wx,Gc=class{constructor(t){vt(this,cr);this.desk=t,this.player=new Bc({step:e=>x(this,cr,bx).call(this,e),ended:()=>x(this,cr,wx).call(this)})}get on(){return this.player.playing}stop(){this.player.stop()}toggle(){let{desk:t}=this;if(!(!t.history||t.state.movement===xi)){if(this.on){this.stop();return}this.way=t.state.travel_mm>=t.movementBar.most-1e-6?-1:1,t.state.opening_mm>0&&t.put({opening_mm:0},null,"travel"),t.panes.moving(!0),t.results.moving(!0),this.player.start(),t.drawing.soon()}}};cr=new WeakSet,bx=function(t){let{desk:e}=this,{most:n,mmPerSecond:s}=e.movementBar,r=e.state.travel_mm+this.way*t*s,o=Math.min(Math.max(r,0),n),a=this.way>0?r>=n:r<=0;return a&&(this.way=-this.way),e.history.put({...e.state,travel_mm:Number(o.toFixed(3))},null,"travel"),e.asking.soon(),e.moveAtOnce(),e.drawing.travel(),!(a&&matchMedia("(prefers-reduced-motion: reduce)").matches)},wx=function(){let{state:t}=this.desk;this.desk.history.put({...t,travel_mm:Number(t.travel_mm.toFixed(2))},null,"travel"),this.desk.end(),this.desk.panes.moving(!1),this.desk.asking.now(),this.desk.drawing.soon()};var Tx={float32:Float32Array,uint32:Uint32Array,uint16:Uint16Array,uint8:Uint8Array};function Ax(i){if(i.byteLength<4)throw new Error(`message of ${i.byteLength} bytes: too short for the length of a header`);let t=new DataView(i).getUint32(0,!0),e=4+t;if(e>i.byteLength)throw new Error(`message of ${i.byteLength} bytes: its header alone has ${t}`);let n=JSON.parse(new TextDecoder().decode(new Uint8Array(i,4,t))),s={};for(let[r,{type:o,shape:a,offset:l}]of Object.entries(n.buffers??{})){let c=Tx[o];if(!c)throw new Error(`buffer ${r}: type ${o} is none of ${Object.keys(Tx).join(", ")}`);let h=a.reduce((d,u)=>d*u,1);if(e+l+h*c.BYTES_PER_ELEMENT>i.byteLength)throw new Error(`buffer ${r}: runs past the end of the message`);s[r]=new c(i,e+l,h)}return{header:n,buffers:s}}var Ex=500,$A=8e3,Cx="The program was ended. Start it again and open the address it shows.",qA={1001:Cx,1012:Cx,1013:"Too many pages are open. Close one of them; this one tries again."},YA=5,JA="The program does not answer. If it was ended, start it again and open the address it shows; this page tries again meanwhile.",ZA="The program was started anew and has a new address: open the one it shows. This page belongs to the program before.",KA="/page.css",Je,jd,Rx,Ix,Px,Qd,tf,Vc=class{constructor(t,{onMessage:e,onState:n}){vt(this,Je);this.address=t,this.onMessage=e,this.onState=n,this.number=0,this.waiting=null,this.inFlight=null,this.wait=Ex,this.closed=!1,x(this,Je,jd).call(this)}get isOpen(){return this.socket.readyState===WebSocket.OPEN}show(t,e){this.waiting={state:t,onSent:e},x(this,Je,Qd).call(this)}ask(t,e){return this.isOpen?x(this,Je,tf).call(this,t,e):null}get busy(){return this.inFlight!==null||this.waiting!==null}close(){this.closed=!0,clearTimeout(this.timer),this.socket.close()}};Je=new WeakSet,jd=function(){let t=new WebSocket(this.address);t.binaryType="arraybuffer",this.socket=t,t.addEventListener("open",()=>{this.wait=Ex,this.tries=0,this.ended="",this.onState("open","")}),t.addEventListener("message",({data:e})=>x(this,Je,Rx).call(this,e)),t.addEventListener("close",({code:e})=>x(this,Je,Ix).call(this,e))},Rx=function(t){let{header:e,buffers:n}=Ax(t),s=e.kind==="pose"||e.kind==="fault";s&&(e.number===this.inFlight||e.number===null)&&(this.inFlight=null),this.onMessage(e,n),s&&x(this,Je,Qd).call(this)},Ix=function(t){if(this.inFlight=null,this.closed)return;this.tries=(this.tries??0)+1,this.ended=qA[t]??this.ended??"";let e=this.tries>YA?JA:"Connection lost; trying again.";this.onState("apart",this.ended||e),this.tries>1&&x(this,Je,Px).call(this),this.timer=setTimeout(()=>x(this,Je,jd).call(this),this.wait),this.wait=Math.min(2*this.wait,$A)},Px=async function(){let{ok:t}=await fetch(KA,{cache:"no-store"}).catch(()=>({ok:!1}));!t||this.closed||this.isOpen||this.socket.readyState===WebSocket.CONNECTING||(this.ended=ZA,this.onState("apart",this.ended))},Qd=function(){if(!this.waiting||this.inFlight!==null||!this.isOpen)return;let{state:t,onSent:e}=this.waiting;this.waiting=null,this.inFlight=x(this,Je,tf).call(this,"show",t),e?.(this.inFlight)},tf=function(t,e){return this.number+=1,this.socket.send(JSON.stringify({kind:t,number:this.number,...e})),this.number};var jA=200,fn,Lx,Nx,Dx,ef,nf,Hc=class{constructor(t,e,n){vt(this,fn);this.which=t,this.onNews=n,this.link="opening",this.words="",this.keys=new Map,this.files=new Map,this.castsAsked=new Map,this.results=null,this.loads=null,this.sure=null,this.fault=null,this.progress=null,this.lesson=null,this.connection=new Vc(e,{onMessage:(s,r)=>x(this,fn,Nx).call(this,s,r),onState:(s,r)=>{this.link=s,this.words=r,s==="apart"&&x(this,fn,Dx).call(this),s==="open"&&(this.last=null),n(s)}})}show(t){let e=gr(t,this.which);this.wanted=ts(e),this.sure&&this.sure.key!==this.wanted&&this.leaveSure();let n=this.lesson?{...e,lesson:this.lesson}:e,s=JSON.stringify(n);s===this.last||!this.welcome||(this.last=s,this.connection.show(n,r=>{this.keys.set(r,ts(e)),this.keys.size>jA&&this.keys.delete(this.keys.keys().next().value),this.onNews("sent")}),this.onNews("sent"))}ask(t,e){let n=this.connection.ask(t,gr(e,this.which));return n!==null&&this.files.set(n,t),n}askSure(t){let e=gr(t,this.which),n=this.connection.ask("how_sure",e);n!==null&&(this.sure={number:n,key:ts(e),stands:"running",words:"",share:null},this.onNews("sure"))}leaveSure(){let t=this.sure?.stands==="running";t&&this.connection.ask("leave_sure",{}),this.sure=t?{key:this.wanted,stands:"left"}:null,this.onNews("sure")}askCasts(t,e,n){let s=this.connection.ask(t,e);return s!==null&&this.castsAsked.set(s,n),s!==null}isOfOther(t){let{of:e}=t??{};return!!(e&&this.wanted&&e!==JSON.parse(this.wanted)[0])}get hasOldCasts(){if(!this.teeth)return!1;let t=this.progress&&this.pose&&this.keys.get(this.pose.header.number)!==this.wanted;return this.isOfOther(this.teeth)||!!t}get whole(){return this.fresh&&this.results.whole}get computing(){return!this.whole&&!this.fault&&this.link!=="apart"}get fresh(){return this.results!==null&&this.results.key===this.wanted}get freshLoads(){return this.fresh&&this.loads?.key===this.wanted?this.loads:null}get freshSure(){return this.whole&&this.sure?.stands==="found"&&this.sure.key===this.wanted?this.sure.header:null}excursion(t,e){return(this.results?.header.movements??[]).find(s=>s.movement===t&&s.start===e)??null}buffer(t){return this.results.buffers[t]}value(t,e){return e in t.changes?t.changes[e]:this.case?.values[e]??null}close(){this.connection.close()}};fn=new WeakSet,Lx=function(t){t.kind==="progress"?Object.assign(this.sure,{words:t.words,share:t.share}):t.kind==="fault"?this.sure={key:this.sure.key,stands:"fault",text:t.text}:this.sure={key:this.sure.key,stands:"found",header:t},this.onNews("sure")},Nx=function(t,e){let n=this.castsAsked.get(t.number);if(n){t.kind!=="progress"&&this.castsAsked.delete(t.number),n(t,e);return}if(this.sure?.stands==="running"&&t.number===this.sure.number){x(this,fn,Lx).call(this,t);return}let s=this.files.get(t.number);if(s){t.kind!=="progress"&&this.files.delete(t.number),this.onNews(t.kind==="file"?"file":"answer",{...t,asked:s});return}({welcome:()=>{this.welcome=t},case:()=>{this.case=t},progress:()=>{this.progress=t},teeth:()=>{this.teeth={header:t,buffers:e,of:x(this,fn,nf).call(this,t)}},pose:()=>{this.pose={header:t,buffers:e},this.fault=null,this.progress=null},excursions:()=>x(this,fn,ef).call(this,t,e),rest:()=>x(this,fn,ef).call(this,t,e),loads:()=>{this.loads={header:t,buffers:e,key:this.keys.get(t.number)}},lesson:()=>{this.progress=null},reach:()=>{this.reach={header:t,buffers:e}},fault:()=>{this.fault=t,this.progress=null}})[t.kind]?.(),this.onNews(t.kind,t,e)},Dx=function(){this.progress=null;for(let e of this.files.values())this.onNews("answer",{kind:"fault",asked:e,text:"The connection was lost."});this.files.clear(),this.sure?.stands==="running"&&(this.sure={key:this.sure.key,stands:"fault",text:"the connection was lost; try again when it is back."});let t=[...this.castsAsked.values()];this.castsAsked.clear();for(let e of t)e({kind:"fault",text:"The connection was lost; try again when it is back.",keys:[]})},ef=function(t,e){let n=this.keys.get(t.number);this.results={header:t,buffers:e,whole:t.kind==="rest",key:n,of:x(this,fn,nf).call(this,t)}},nf=function({number:t}){let e=this.keys.get(t);return e===void 0?null:JSON.parse(e)[0]};var Ao=0,QA={upper:"Upper teeth",lower:"Lower teeth",missing:"Missing teeth"},Me,Ox,Ux,Wc,hr,Xc,Fx,$c=class{constructor(t,e){vt(this,Me);Object.assign(this,{offered:t,calls:e,tooth:Ao,kind:"lower",amounts:{},there:[]}),this.teeth=p("select",{id:"trial-tooth",onchange:()=>this.choose(Number(this.teeth.value))}),this.kinds=p("select",{id:"trial-kind","aria-describedby":"trial-help",onchange:()=>{this.kind=this.kinds.value,x(this,Me,hr).call(this)}}),this.help=p("p",{class:"quiet",id:"trial-help"}),x(this,Me,Ox).call(this),this.wrong=p("p",{class:"wrong",id:"trial-wrong",role:"alert"}),this.button=p("button",{type:"submit",id:"trial-apply",class:"act"}),this.cancel=p("button",{type:"button",id:"trial-leave",text:"Leave it as it is",onclick:()=>e.leave()}),this.element=p("form",{class:"trial-form",id:"trial-form",novalidate:!0,onsubmit:n=>{n.preventDefault(),x(this,Me,Fx).call(this)}},p("label",{for:"trial-tooth",text:"Tooth (or click it in the picture)"}),this.teeth,p("label",{for:"trial-kind",text:"What to do to it"}),this.kinds,this.help,Object.values(this.fields).map(({row:n})=>n),this.wrong,p("div",{class:"trial-acts"},this.button,this.cancel))}choose(t){this.tooth=t,x(this,Me,hr).call(this),this.calls.tooth(t)}load(t,e){Object.assign(this.amounts,...x(this,Me,Wc).call(this,t.kind).map(({name:n})=>({[n]:t[n]??0}))),Object.assign(this,{kind:t.kind,altering:e}),this.choose(t.tooth),this.teeth.focus()}alter(t){this.altering=t,x(this,Me,hr).call(this)}stand(t){let e=Object.keys(t.names).map(Number),n=e.join();if(n===this.codes)return;Object.assign(this,{codes:n,there:e});let s=e.map(a=>({tooth:a,name:t.names[a],place:eE(a)?"upper":"lower"})),r=this.offered.teeth.filter(({tooth:a})=>!e.includes(a)).map(a=>({...a,place:"missing"})),o=[...s,...r];o.some(({tooth:a})=>a===this.tooth)||(this.tooth=Ao),this.teeth.replaceChildren(p("option",{value:Ao,text:"Choose a tooth"}),...Object.entries(QA).map(([a,l])=>p("optgroup",{label:l},o.filter(c=>c.place===a).map(({tooth:c,name:h})=>p("option",{value:c,text:tE(c,h)}))))),x(this,Me,hr).call(this),this.calls.tooth(this.tooth)}inWords(t){let e=this.offered.kinds.flatMap(n=>n.amounts);return t.replace(/\b[a-z]+_(?:mm|deg)\b/g,n=>{let s=e.find(r=>r.name===n);return s?`“${s.label}”`:n})}};Me=new WeakSet,Ox=function(){this.fields={};for(let t of this.offered.kinds.flatMap(({amounts:e})=>e)){let{name:e,label:n,start:s}=t;if(e in this.fields)continue;this.amounts[e]=s;let r=new Es(t,`trial.${e}`,n,{set:a=>{this.amounts[e]=a,x(this,Me,hr).call(this)},end:()=>{}}),o=p("div",{class:"control",role:"group","aria-label":n},p("div",{class:"control-head"},p("span",{class:"label",text:n})),p("div",{class:"side-row"},r.element));this.fields[e]={field:r,row:o}}},Ux=function(){let{tooth:t,there:e}=this,n=t!==Ao&&!e.includes(t),s=this.altering!==null&&this.altering!==void 0;return this.offered.kinds.filter(({of:r})=>(r!=="front"||t%10<=3)&&(s||r==="missing"===n))},Wc=function(t){return this.offered.kinds.find(e=>e.kind===t)?.amounts??[]},hr=function(){let t=x(this,Me,Ux).call(this);t.some(({kind:r})=>r===this.kind)||(this.kind=t[0].kind);let e=t.map(({kind:r})=>r).join();e!==this.fittingKey&&this.kinds.replaceChildren(...t.map(({kind:r,title:o})=>p("option",{value:r,text:o}))),this.fittingKey=e,nt(this.teeth,{value:String(this.tooth)}),nt(this.kinds,{value:this.kind}),nt(this.help,{textContent:t.find(({kind:r})=>r===this.kind).help});let n=x(this,Me,Wc).call(this,this.kind).map(({name:r})=>r);for(let[r,{field:o,row:a}]of Object.entries(this.fields))st(a,n.includes(r)),o.update(this.amounts[r],null,"");let s=this.altering!==null&&this.altering!==void 0;nt(this.button,{textContent:s?`Apply to change ${this.altering+1}`:"Apply"}),st(this.cancel,s),x(this,Me,Xc).call(this,"")},Xc=function(t){nt(this.wrong,{textContent:t}),st(this.wrong,t!=="")},Fx=function(){let t=x(this,Me,Wc).call(this,this.kind),e=t.map(({name:s})=>this.fields[s].field).find(({note:s})=>s.words&&s.words!==this.told);if(e){this.told=e.note.words,e.input.focus();return}if(this.told=null,this.tooth===Ao){x(this,Me,Xc).call(this,"Choose a tooth first, in the list or in the picture."),this.teeth.focus();return}let n=t.filter(({name:s})=>this.amounts[s]!==0);if(t.length&&!n.length){x(this,Me,Xc).call(this,`Say by how much: ${t.map(({label:s,unit:r})=>`“${s}”, ${r==="°"?"degrees":r}`).join(", or ")}.`),this.fields[t[0].name].field.input.focus();return}this.calls.apply({kind:this.kind,tooth:this.tooth,...Object.fromEntries(n.map(({name:s})=>[s,this.amounts[s]]))})};function tE(i,t){return`${i} ${t.replace(`(${i})`,"").trim()}`}function eE(i){return[1,2,5,6].includes(Math.floor(i/10))}var Se,sf,rf,kx,Bx,Eo,of,zx,qc=class{constructor(t){vt(this,Se);this.desk=t}make(t){return this.offered=t,this.form=new $c(t,{apply:e=>x(this,Se,kx).call(this,e),tooth:()=>x(this,Se,sf).call(this),leave:()=>{this.form.alter(null),this.form.teeth.focus()}}),this.count=p("span",{class:"changed-count"}),this.list=p("ol",{id:"trial-list","aria-label":"Changes of teeth, in the order in which they are made"}),this.none=p("p",{class:"quiet",id:"trial-none",text:"No tooth is changed."}),this.said=p("p",{class:"quiet",id:"trial-said",role:"status"}),this.notes=p("div",{id:"trial-notes"}),this.all=p("button",{type:"button",class:"small",id:"trial-none-left",text:"Take all back",onclick:()=>x(this,Se,Eo).call(this,[],"All changes of teeth are taken back.")}),this.back=p("button",{type:"button",class:"small",id:"trial-as-case",text:"As in the case",onclick:()=>x(this,Se,Eo).call(this,this.own,"The changes of teeth are those of the case.")}),this.before=p("input",{type:"checkbox",id:"before-shown",onchange:()=>this.desk.put({display:{...this.desk.state.display,before:this.before.checked}})}),this.shown=p("label",{class:"toggle",for:"before-shown"},this.before,p("span",{text:"Show changed teeth as they were"})),this.element=p("details",{id:"group-trial",class:"group",ontoggle:()=>x(this,Se,sf).call(this)},p("summary",{},p("h3",{text:"Change a tooth"}),this.count),p("p",{class:"quiet",text:"A trial set-up: see what follows if one tooth were changed. What that does to the tooth itself, its pulp and its support is not told; the clinician decides."}),this.form.element,this.said,p("h4",{id:"trial-list-title",text:"Changes, in this order"}),this.none,this.list,this.notes,p("div",{class:"trial-acts"},this.all,this.back),this.shown),this.element}clicked(t,e){if(!this.form||!e)return;let{desk:n}=this;t!==n.state.chosen&&n.put({chosen:t}),this.element.open=!0,this.form.choose(e);let s=It("settings");s.scrollHeight>s.clientHeight&&(s.scrollTop+=this.element.getBoundingClientRect().top-s.getBoundingClientRect().top)}update(t,e,n){this.own=e.case.trial;let{teeth:s,fault:r}=e;s&&this.form.stand(s.header),x(this,Se,of).call(this,xs(t,this.own),r);let o=s&&!e.isOfOther(s)?s.header.notes:[],a=o.join(`
`);a!==this.notesKey&&this.notes.replaceChildren(...o.map(l=>p("p",{class:"quiet",text:`${l}.`}))),this.notesKey=a,nt(this.before,{checked:n.before})}};Se=new WeakSet,sf=function(){this.desk.panes.point(this.element.open?this.form.tooth:0)},rf=function(){let{state:t,study:e}=this.desk;return e.case?.name===t[t.chosen].case},kx=function(t){if(!jc(this,Se,rf))return;let{altering:e}=this.form,n=e??this.rows.length;if(n>=this.offered.most){nt(this.said,{textContent:`A case takes ${this.offered.most} changes of teeth; take one back first.`});return}this.form.alter(null),x(this,Se,Eo).call(this,[...this.rows.slice(0,n),t,...this.rows.slice(n+1)],`Applied: ${fr(t,this.offered)}. Undo takes it back.`)},Bx=function(t){let e=this.rows[t];x(this,Se,Eo).call(this,this.rows.filter((s,r)=>r!==t),`Taken back: ${fr(e,this.offered)}.`);let n=this.list.querySelectorAll(".trial-back");(n[Math.min(t,n.length-1)]??this.form.teeth).focus()},Eo=function(t,e){if(!jc(this,Se,rf))return;let{desk:n}=this,{chosen:s}=n.state;n.put({[s]:Ef(n.state[s],t,this.own)}),x(this,Se,of).call(this,t,null),nt(this.said,{textContent:e})},of=function(t,e){let n=t.map((a,l)=>If(e,l)),s=JSON.stringify([Vn(t),Vn(this.own),n,this.form.altering??null]);if(s===this.key)return;this.rows&&Vn(t)!==Vn(this.rows)&&(this.form.alter(null),nt(this.said,{textContent:""})),Object.assign(this,{key:s,rows:t});let r=new Set(this.own.map(a=>Vn([a])));this.list.replaceChildren(...t.map((a,l)=>x(this,Se,zx).call(this,a,l,r.has(Vn([a])),n[l]))),n.some(Boolean)&&(this.element.open=!0,nt(this.said,{textContent:""}));let o=Vn(t)===Vn(this.own);nt(this.count,{textContent:t.length?gi(t.length,"change"):""}),st(this.none,t.length===0),st(this.all,t.length>0),st(this.back,!o&&this.own.length>0),st(this.shown,t.length>0)},zx=function(t,e,n,s){let r=fr(t,this.offered),o=s?this.desk.settings.inWords(this.form.inWords(s)):"",a=p("p",{class:"wrong",id:`trial-wrong-${e}`,text:o.charAt(0).toUpperCase()+o.slice(1)});return st(a,o!==""),p("li",{class:o?"faulty":""},p("span",{class:"trial-words"},r,n?p("span",{class:"quiet",text:" (in the case)"}):null),p("button",{type:"button",class:"small trial-alter",text:"Alter","aria-label":`Alter: ${r}`,"aria-describedby":a.id,onclick:()=>{this.form.load(t,e)}}),p("button",{type:"button",class:"small trial-back",text:"Take back","aria-label":`Take back: ${r}`,onclick:()=>x(this,Se,Bx).call(this,e)}),a)};var kt,Gx,af,Vx,Hx,Wx,Xx,$x,lf,Yc,qx,cf,hf,Yx,uf,Jx,Zx,Kx,jx,Qx,Jc=class{constructor(){vt(this,kt);this.notices=new ha,this.studies={},this.panes=new zc(t=>x(this,kt,jx).call(this,t),(t,e)=>this.trial.clicked(t,e)),this.commands=new Go(this),this.drawing=new sa(this),this.playing=new Gc(this),this.asking=new Io(this),this.trial=new qc(this),x(this,kt,Gx).call(this)}open(){this.panes.open("a"),this.panes.of("a").working("Connecting to the program on this machine",!0),x(this,kt,af).call(this,"a"),window.addEventListener("hashchange",t=>x(this,kt,Xx).call(this,new URL(t.newURL).hash))}get state(){return this.history?.present??null}get study(){return this.state?this.studies[this.state.chosen]:null}take(t){let e=sh(t);rh(e,this.welcome),this.notices.tell("link","fault",""),x(this,kt,lf).call(this,e,null)}put(t,e=null,n=null){this.history&&x(this,kt,lf).call(this,{...this.state,...t},e,n)}moveAtOnce(){return Object.values(this.studies).map(t=>this.panes.moveAtOnce(t,this.state)).every(Boolean)}set(t,e=null){if(!this.state)return;let{chosen:n}=this.state,s=x(this,kt,hf).call(this,t);ts(s)===ts(this.state[n])?this.drawing.soon():this.put({[n]:s},e)}reset(){let{chosen:t,display:e}=this.state;this.put({[t]:{case:this.state[t].case,changes:{}},display:{...e,linked:{}}})}lookFrom(t){if(this.ownCasts.picking){this.ownCasts.look(t);return}this.state&&(t!==this.state.display.look&&x(this,kt,uf).call(this,Dr(this.state.display,t)),this.panes.look(t))}takeOwnCase(t){this.welcome.cases=[...this.welcome.cases,{...t,title:`${t.title} (${t.name.replace("own_","")})`}],Bh(this.welcome);let{movement:e,start:n}=this.welcome.first;this.put({a:{case:t.name,changes:{}},b:null,chosen:"a",movement:e,start:n,travel_mm:0,opening_mm:0})}goTo(t,e,n,s){let r={...this.state.display,look:s};this.put({...n,display:r,a:{case:t,...e},b:null,chosen:"a"}),this.panes.look(s)}travel(t,e){this.playing.on&&this.playing.stop(),e&&this.results.moving(!0),this.put({travel_mm:t},e,"travel")}end(){this.history?.end(),this.asking.rest(),this.results.moving(!1)}undo(){if(this.ownCasts.picking){this.ownCasts.undo();return}this.playing.stop(),this.history?.undo()&&x(this,kt,Yc).call(this)}redo(){if(this.ownCasts.picking){this.ownCasts.redo();return}this.playing.stop(),this.history?.redo()&&x(this,kt,Yc).call(this)}compare(){let{state:t}=this;if(t.b){let[e,n]=t.chosen==="a"?"AB":"BA";this.put({a:t[t.chosen],b:null,chosen:"a"}),this.commands.tell(`State ${e} is kept, ${n} is put away. Undo brings back both.`)}else this.put({b:{...t.a},chosen:"b"})}};kt=new WeakSet,Gx=function(){let t=()=>this.end(),e=(n,s)=>this.travel(n,s);Bm({...this.commands.calls(),case:n=>x(this,kt,Jx).call(this,n),undo:()=>this.undo(),redo:()=>this.redo(),reset:()=>this.reset(),compare:()=>this.compare(),lessons:()=>this.lessons.open()}),this.ownCasts=new Uc(this),It("own-casts").addEventListener("click",()=>this.ownCasts.open()),this.settings=new na({set:(n,s)=>this.set(n,s),end:t,points:n=>this.ownCasts.pickOn(n),link:(n,s,r)=>x(this,kt,Yx).call(this,n,s,r)}),this.lookBar=dg({display:n=>x(this,kt,uf).call(this,n),look:n=>this.lookFrom(n),map:n=>this.put({map:n})}),this.movementBar=new $o({movement:n=>x(this,kt,Zx).call(this,n),start:n=>this.put({start:n}),travel:e,end:t,play:()=>this.playing.toggle(),opening:(n,s)=>this.put({opening_mm:n},s,"opening")}),this.results=new ea({travel:e,end:t,pick:n=>x(this,kt,Kx).call(this,n),movement:(n,s)=>this.put({movement:n,start:s}),put:n=>this.put(n)}),this.comparison=new ia({travel:e,end:t,choose:n=>this.put({chosen:n})},n=>this.settings.nameOf(n)),It("results-body").append(this.results.element,this.comparison.element),st(this.comparison.element,!1),this.lessons=new ca(this)},af=function(t){let e=new URLSearchParams(location.search).get("token")??"",s=`${location.protocol==="https:"?"wss":"ws"}://${location.host}/socket?token=${encodeURIComponent(e)}`;this.studies[t]=new Hc(t,s,(r,o)=>x(this,kt,Vx).call(this,t,r,o))},Vx=function(t,e,n){let s=this.studies[t];({welcome:()=>x(this,kt,Hx).call(this,t),case:()=>x(this,kt,$x).call(this,t),teeth:()=>this.panes.teeth(t,s),pose:()=>this.panes.pose(t,s,this.state),lesson:()=>this.lessons.came(n),file:()=>this.commands.fileCame(n),answer:()=>this.commands.answered(n)})[e]?.(),e==="pose"&&this.notices.say(x(this,kt,Qx).call(this)),this.drawing.soon()},Hx=function(t){let e=this.studies[t];this.welcome||(this.welcome=e.welcome,zm(this.welcome),this.settings.make(this.welcome.controls,this.trial.make(this.welcome.trial)),this.history=new Cs(x(this,kt,Wx).call(this)),qm((...n)=>this.goTo(...n))),this.panes.make(t,this.welcome),this.ownCasts.resume(e),x(this,kt,cf).call(this),this.asking.now()},Wx=function(){let t=Hf(this.welcome.first);try{let e=ih(location.hash);if(e===null)return t;let n=sh(e);return rh(n,this.welcome),n}catch(e){return this.notices.tell("link","fault",`The state in the address cannot be shown: ${e.message}. The page starts with the usual one.`),t}},Xx=function(t){if(!(!this.welcome||t===this.fragment))try{let e=ih(t);e!==null&&this.take(e)}catch(e){this.notices.tell("link","fault",`This link cannot be shown: ${e.message}. Nothing was changed.`)}},$x=function(t){let{movements:e,name:n}=this.studies[t].case;if(t!==this.state.chosen||n!==this.state[t].case)return;let s=(l,c)=>e.some(h=>h.movement===l&&h.start===c),{movement:r,start:o}=this.state;if(s(r,o))return;let a=e.find(l=>l.movement===r)??e[0];this.history.amend({...this.state,movement:a.movement,start:a.start}),this.asking.now()},lf=function(t,e,n=null){this.notices.tell("done","info",""),this.history.put(t,e,n),e===null||n!=="travel"?x(this,kt,Yc).call(this):x(this,kt,qx).call(this)},Yc=function(){x(this,kt,cf).call(this),this.asking.now(),this.moveAtOnce(),this.drawing.soon()},qx=function(){this.moveAtOnce()?this.asking.soon():this.asking.now(),this.drawing.soon()},cf=function(){let t=this.state.b!==null;if(t&&!this.studies.b){this.panes.open("b"),x(this,kt,af).call(this,"b");let{a:e,b:n}=this.studies;this.state.b.case===this.state.a.case&&(n.case=e.case)}else!t&&this.studies.b&&(this.studies.b.close(),delete this.studies.b,this.panes.close("b"))},hf=function(t){return Wf(this.state[this.state.chosen],t,this.study.case?.values??{})},Yx=function(t,e,n){let s={...this.state.display,linked:{...this.state.display.linked,[t]:e}},{chosen:r}=this.state,o=x(this,kt,hf).call(this,n);this.put({display:s,[r]:o})},uf=function(t){this.put({display:{...this.state.display,...t}})},Jx=function(t){this.put({[this.state.chosen]:{case:t,changes:{}}})},Zx=function(t){let e=(this.study.case?.movements??[]).filter(r=>r.movement===t),n=e.some(r=>r.start===this.state.start)?this.state.start:e[0]?.start,s=t===xi?{travel_mm:0}:{};this.put({movement:t,start:n??this.state.start,...s})},Kx=function(t){if(this.ringed=t,this.panes.ring(this.state.chosen,t),!t?.movement)return;let{movement:e,start:n}=t;this.put({movement:e,start:n,opening_mm:0,travel_mm:sp(t)})},jx=function({which:t,pose:e}){let{dataset:n}=document.documentElement;n.frames=String(Number(n.frames??0)+1),t==="a"&&e!==null&&(n.answered=String(e))},Qx=function(){let{state:t,studies:e}=this;return t.b?["a","b"].map(n=>`${n.toUpperCase()}: ${e[n]?.pose?.header.words??""}`).join(". "):e.a.pose?.header.words??""};var nE="input[type=text], textarea, select",iE="button, summary, a, input, select";function ty(i){let t=e=>e.target.matches?.("input[type=text]");document.addEventListener("input",e=>{t(e)&&(e.target.dataset.dirty="")}),document.addEventListener("change",e=>{t(e)&&delete e.target.dataset.dirty}),document.addEventListener("keydown",e=>{if(document.querySelector("dialog[open]"))return;let n=e.ctrlKey||e.metaKey?sE(e):null;if(n){if("dirty"in(e.target.dataset??{}))return;e.preventDefault(),i[n]();return}if(e.ctrlKey||e.metaKey||e.altKey||e.target.closest?.(nE))return;let s=ug[Number(e.key)-1];e.key==="?"?Uo():s?i.look(s):e.key===" "&&!e.target.closest?.(iE)&&(e.preventDefault(),i.play())})}function sE(i){let t=i.key.toLowerCase();return t==="z"?i.shiftKey?"redo":"undo":t==="y"?"redo":null}var rE="(max-width: 900px)";function ey(){let i=matchMedia(rE),t=()=>{let[e,n]=[It("settings"),It("centre")],{activeElement:s}=document,{scrollTop:r}=e;i.matches?n.after(e):n.before(e),e.scrollTop=r,e.contains(s)&&s.focus({preventScroll:!0})};i.addEventListener("change",t),t()}ey();var ur=new Jc;ty({undo:()=>ur.undo(),redo:()=>ur.redo(),play:()=>ur.ownCasts.picking||ur.playing.toggle(),look:i=>ur.lookFrom(i)});ur.open();
